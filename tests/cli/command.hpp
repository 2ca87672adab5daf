#pragma once

#include <string>

#include "support/scratch_folder.hpp"

namespace hailwright::testing {

/// What a command printed and how it ended.
struct Finished {
  std::string out;
  std::string err;
  int exit_code = -1;
};

/// Path of the program that is tried: of the environment variable HAILWRIGHT_BINARY, else the one
/// that was built with the tests.
std::string hailwright_program();

/// Runs `hailwright ARGUMENTS` with a shell from a folder; a hang ends with code 124, after 60 s
/// or as many as the environment variable HAILWRIGHT_PATIENCE says.
/// @param environment  such as "NO_COLOR=1"
Finished run_hailwright(const std::string& arguments, const std::string& folder = {},
                        const std::string& environment = {});

/// A file of the source tree.
std::string source_file(const std::string& path_in_tree);

}  // namespace hailwright::testing
