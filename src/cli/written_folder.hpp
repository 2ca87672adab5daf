#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "cli/output_files.hpp"

namespace hailwright::cli {

/// Names the other files of a written folder.
inline constexpr const char* checksums_name = "checksums.txt";

/// By what a folder that we wrote is known: one of its files, and how that begins.
struct FolderMark {
  std::string_view what;       ///< for messages: "write-up"
  std::string_view file;       ///< in the folder itself: "report.json"
  std::string_view beginning;  ///< as `report_json` begins
};
inline constexpr FolderMark write_up_mark{"write-up", "report.json",
                                          "{\n  \"schema\": \"hailwright report "};
inline constexpr FolderMark line_up_mark{"line-up", "line-up.json",
                                         "{\n  \"schema\": \"hailwright line-up "};

/// How the writing of a folder went.
struct FolderWritten {
  std::vector<WriteFault> faults;    ///< none: all is written
  std::vector<std::string> written;  ///< names inside the folder, `checksums_name` last
  /// Names inside the folder of what is not part of what was written and stays there: folders end
  /// with '/'.
  std::vector<std::string> staying;
};

/// Makes a folder hold exactly these files and `checksums_name`, which lists them, and whatever
/// else of others is there. With `keep`, the folder is new or empty. With `replace`, it may also be
/// one with the mark: files that its `checksums_name` lists, that are still as it says, and that
/// are not among the new ones, go; anything else stays. A folder that holds something and has no
/// mark is nobody's to write anew, whatever lists lie in it. All new files are on the disk before
/// the first takes its name, and a name is never that of a part of a file, whenever the program is
/// killed. Files that were read are neither replaced by others nor removed; with the same bytes
/// they may be written, so that a folder can be made anew from its own copies.
/// @param files  that of the mark among them, none of the name `checksums_name`
/// @param read   paths of the files that they are made from
FolderWritten write_folder(const std::string& folder, const FolderMark& mark,
                           std::vector<OutputFile> files, Existing existing,
                           const std::vector<std::string>& read = {});

/// `write_files`, by one run at a time, and after what killed ones left there is removed.
std::vector<WriteFault> write_into(const std::string& folder, const std::vector<OutputFile>& files,
                                   Existing existing);

}  // namespace hailwright::cli
