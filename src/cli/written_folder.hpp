#pragma once

#include <string>
#include <vector>

#include "cli/output_files.hpp"

namespace hailwright::cli {

/// Names the other files of a written folder.
inline constexpr const char* checksums_name = "checksums.txt";

/// How the writing of a folder went.
struct FolderWritten {
  std::vector<WriteFault> faults;    ///< none: all is written
  std::vector<std::string> written;  ///< names inside the folder, `checksums_name` last
  /// Names inside the folder of what is not part of what was written and stays there: folders end
  /// with '/'.
  std::vector<std::string> staying;
};

/// Makes a folder hold exactly these files and `checksums_name`, which lists them, and whatever
/// else of others is there. With `keep`, the folder is new or empty. With `replace`, files that an
/// earlier `checksums_name` lists, that are still as it says, and that are not among the new ones,
/// go; anything else stays. All new files are on the disk before the first takes its name, and a
/// name is never that of a part of a file, whenever the program is killed.
/// Files that were read are neither replaced by others nor removed; with the same bytes they may be
/// written, so that a folder can be made anew from its own copies.
/// @param files  at least one, none of the name `checksums_name`
/// @param read   paths of the files that they are made from
FolderWritten write_folder(const std::string& folder, std::vector<OutputFile> files,
                           Existing existing, const std::vector<std::string>& read = {});

/// `write_files`, by one run at a time, and after what killed ones left there is removed.
std::vector<WriteFault> write_into(const std::string& folder, const std::vector<OutputFile>& files,
                                   Existing existing);

}  // namespace hailwright::cli
