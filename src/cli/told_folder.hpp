#pragma once

#include <string>
#include <vector>

#include "cli/written_folder.hpp"

namespace hailwright::cli {

/// Writes a folder as `write_folder` does, and tells: the names of the files on standard output, on
/// standard error what went wrong or stays there.
/// @param read  paths of the files that they are made from
/// @return exit code
int write_and_tell(const std::string& folder, const FolderMark& mark, std::vector<OutputFile> files,
                   Existing existing, const std::vector<std::string>& read);

}  // namespace hailwright::cli
