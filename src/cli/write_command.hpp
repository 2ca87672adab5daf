#pragma once

#include <string>

#include "cli/judging.hpp"

namespace hailwright::cli {

struct WriteOptions {
  JudgingOptions judging;
  std::string folder;
  bool replace = false;         ///< a folder that holds a write-up already
  bool without_photos = false;  ///< photos are told in words alone
};

/// Writes the write-up of some records into a folder: pages, tables, spreadsheet, pictures, photos,
/// copies of the inputs, and the checksums of them all.
int run_write(const WriteOptions& options);

}  // namespace hailwright::cli
