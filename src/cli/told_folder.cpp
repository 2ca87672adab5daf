#include "cli/told_folder.hpp"

#include <algorithm>
#include <filesystem>
#include <utility>

#include "cli/exit_codes.hpp"
#include "cli/terminal.hpp"
#include "core/utf8.hpp"

namespace hailwright::cli {

namespace {

namespace fs = std::filesystem;

/// The path; names of copies come from records of others, and none steers the terminal.
std::string shown(const std::string& folder, const std::string& name) {
  return detail::without_steering((fs::path(folder) / name).string());
}

/// What is there and not of what was written; not each of hundreds.
std::string staying_messages(const std::string& folder, const std::vector<std::string>& names) {
  constexpr std::size_t most = 20;
  std::string text;
  for (std::size_t i = 0; i < std::min(names.size(), most); ++i) {
    text +=
        "hailwright: " + shown(folder, names[i]) + " is not part of what was written, and stays\n";
  }
  if (names.size() > most)
    text += "hailwright: and so do " + std::to_string(names.size() - most) + " more\n";
  return text;
}

}  // namespace

int write_and_tell(const std::string& folder, const FolderMark& mark, std::vector<OutputFile> files,
                   Existing existing, const std::vector<std::string>& read) {
  const FolderWritten result = write_folder(folder, mark, std::move(files), existing, read);
  if (!result.faults.empty()) {
    write_messages(text_of(result.faults));
    return exit_output;
  }
  write_messages(staying_messages(folder, result.staying));
  std::string text;
  for (const std::string& name : result.written)
    text += shown(folder, name) + "\n";
  return write_output(text);
}

}  // namespace hailwright::cli
