#pragma once

#include <string>

namespace hailwright::cli {

struct StartOptions {
  std::string folder;
  std::string from;  ///< kind of test to begin from; empty: the usual one
};

/// Writes the files to begin from into a folder and says what comes next. Nothing that is there
/// already is overwritten: then nothing is written at all.
int run_start(const StartOptions& options);

}  // namespace hailwright::cli
