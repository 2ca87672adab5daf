#include "cli/written_folder.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <filesystem>
#include <fstream>
#include <set>
#include <system_error>
#include <utility>

#include "cli/checksums.hpp"
#include "cli/files.hpp"
#include "cli/folder_claim.hpp"

namespace hailwright::cli {

namespace {

namespace fs = std::filesystem;
using Names = std::set<std::string>;

/// Larger than any list of checksums that is written here.
constexpr std::size_t largest_list = std::size_t{1} << 30U;

/// Folders inside that hold some of the names, "" for the outermost.
Names folders_of(const Names& names) {
  Names folders{""};
  for (const std::string& name : names) {
    for (fs::path above = fs::path(name).parent_path(); !above.empty(); above = above.parent_path())
      folders.insert(above.string());
  }
  return folders;
}

/// Whether the folders on the way to a file inside are folders, and no links to elsewhere.
bool lies_inside(const fs::path& folder, const std::string& name) {
  std::error_code error;
  const fs::path inner = fs::canonical((folder / name).parent_path(), error);
  if (error) return false;
  return inner == (fs::canonical(folder, error) / fs::path(name).parent_path() / "").parent_path();
}

bool is_as_listed(const fs::path& folder, const Checksum& sum) {
  std::error_code none;
  const fs::path path = folder / sum.name;
  if (fs::symlink_status(path, none).type() != fs::file_type::regular) return false;
  if (!lies_inside(folder, sum.name)) return false;
  return sha256_of_file(path.string()) == sum.sha256;
}

/// What an earlier write-up left and the new one neither has nor is made from.
std::vector<std::string> outdated(const std::string& folder, const Names& written,
                                  const FileSet& read) {
  const Loaded list = load_file((fs::path(folder) / checksums_name).string(), largest_list);
  std::vector<std::string> names;
  if (!list.text) return names;
  for (const Checksum& sum : read_checksums(*list.text)) {
    if (written.contains(sum.name) || read.has((fs::path(folder) / sum.name).string())) continue;
    if (is_as_listed(folder, sum)) names.push_back(sum.name);
  }
  return names;
}

/// What lies in the folder and in those inside it that hold something of ours.
std::vector<std::string> strangers(const fs::path& folder, const Names& written) {
  const Names ours = folders_of(written);
  std::vector<std::string> names;
  for (const std::string& inside : ours) {
    std::error_code none;
    for (const auto& entry : fs::directory_iterator(folder / inside, none)) {
      const std::string name = (fs::path(inside) / entry.path().filename()).string();
      if (written.contains(name) || ours.contains(name)) continue;
      const bool is_folder = entry.symlink_status(none).type() == fs::file_type::directory;
      names.push_back(is_folder ? name + "/" : name);
    }
  }
  std::sort(names.begin(), names.end());
  return names;
}

/// A fault while another run writes there; else what killed ones left is removed.
std::vector<WriteFault> begin_writing(const FolderClaim& claim, const std::string& folder,
                                      const Names& names) {
  if (claim.state() == FolderClaim::State::taken) {
    return {
        {folder, "is being written by another run of hailwright", "wait until that one has ended"}};
  }
  for (const std::string& inside : folders_of(names)) {
    if (lies_inside(folder, (fs::path(inside) / checksums_name).string()))
      claim.remove_leftovers(inside);
  }
  return {};
}

bool holds_something(const std::string& folder) {
  std::error_code none;
  return fs::is_directory(folder, none) && !fs::is_empty(folder, none);
}

bool has_mark(const std::string& folder, const FolderMark& mark) {
  const fs::path path = fs::path(folder) / mark.file;
  std::error_code none;
  if (fs::symlink_status(path, none).type() != fs::file_type::regular) return false;
  std::string beginning(mark.beginning.size(), '\0');
  std::ifstream file(path, std::ios::binary);
  return file.read(beginning.data(), static_cast<std::streamsize>(beginning.size())) &&
         beginning == mark.beginning;
}

/// Why nothing may be written into a folder that holds something.
std::vector<WriteFault> not_to_be_written(const std::string& folder, const FolderMark& mark,
                                          Existing existing) {
  if (!holds_something(folder)) return {};
  const bool ours = has_mark(folder, mark);
  if (existing == Existing::keep) {
    return {{folder, "holds something already, and stays as it is",
             ours ? "name another folder, or add --replace to write this one anew"
                  : "name another folder"}};
  }
  if (ours) return {};
  return {{folder, fmt::format("holds no {}, and stays as it is", mark.what),
           fmt::format("name another folder: --replace writes one anew that holds a {} already",
                       mark.what)}};
}

}  // namespace

FolderWritten write_folder(const std::string& folder, const FolderMark& mark,
                           std::vector<OutputFile> files, Existing existing,
                           const std::vector<std::string>& read) {
  files.push_back({checksums_name, checksums_text(files)});
  FolderWritten result;
  for (const OutputFile& file : files)
    result.written.push_back(file.name);
  const Names names(result.written.begin(), result.written.end());
  // The mark comes first: a folder that a killed run began can be written anew.
  std::stable_partition(files.begin(), files.end(),
                        [&](const OutputFile& file) { return file.name == mark.file; });

  const FolderClaim claim(folder);
  result.faults = begin_writing(claim, folder, names);
  if (!result.faults.empty()) return result;
  result.faults = not_to_be_written(folder, mark, existing);
  if (!result.faults.empty()) return result;
  result.faults = inputs_in_the_way(folder, files, read);
  if (!result.faults.empty()) return result;
  result.faults = write_files(folder, files, existing, outdated(folder, names, FileSet(read)));
  if (result.faults.empty()) result.staying = strangers(folder, names);
  return result;
}

std::vector<WriteFault> write_into(const std::string& folder, const std::vector<OutputFile>& files,
                                   Existing existing) {
  Names names;
  for (const OutputFile& file : files)
    names.insert(file.name);
  const FolderClaim claim(folder);
  std::vector<WriteFault> faults = begin_writing(claim, folder, names);
  return faults.empty() ? write_files(folder, files, existing) : faults;
}

}  // namespace hailwright::cli
