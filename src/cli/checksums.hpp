#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "cli/output_files.hpp"

namespace hailwright::cli {

/// A file of a folder and what its bytes add up to.
struct Checksum {
  std::string name;    ///< inside the folder
  std::string sha256;  ///< 64 lower-case hexadecimal digits
};

/// A line for each file, as `sha256sum -c` reads them: digits, two blanks, name. A name with a
/// backslash or a line break is escaped and its line begins with a backslash.
/// Source: GNU coreutils 9.1 manual, 6.4 md5sum (from memory); tried with that program in
/// tests/cli/write_test.cpp.
std::string checksums_text(const std::vector<OutputFile>& files);

/// The lines of such a file. What is no such line is passed over, and so is a name that leads out
/// of the folder.
std::vector<Checksum> read_checksums(std::string_view text);

}  // namespace hailwright::cli
