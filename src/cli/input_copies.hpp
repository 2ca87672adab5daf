#pragma once

#include <cstdint>
#include <deque>
#include <optional>
#include <string>
#include <vector>

#include "cli/output_files.hpp"
#include "hailwright/input/readers.hpp"
#include "hailwright/report/write_up.hpp"

namespace hailwright::cli {

/// Reads files, each once, and keeps their bytes: whatever is made of them later is made of the
/// same. Logs are not kept but read anew each time, and held against their checksum: one that
/// another program changes in the meantime is told.
class FilesRead {
public:
  struct File {
    std::string path;   ///< as first asked for
    std::string whole;  ///< the same from the root of the file system, without . and ..
    std::optional<std::string> bytes;  ///< nothing of a log
    std::string sha256;                ///< of a log when it was read to its end
    std::uint64_t size = 0;            ///< [bytes]
  };
  Loaded load(const std::string& path, std::size_t largest);
  OpenedLog open_log(const std::string& path);
  /// For readers. They refer to this object.
  [[nodiscard]] Loader loader();
  [[nodiscard]] LogOpener log_opener();
  /// In the order in which they were first asked for.
  [[nodiscard]] const std::deque<File>& all() const { return files_; }

private:
  File* find(const std::string& whole_path);
  std::deque<File> files_;  // a file keeps its place: opened logs point at theirs
};

/// What a write-up says about the files that it was made from, named as they were.
std::vector<InputCopy> inputs_named_as_typed(const FilesRead& files);

/// Copies of input files for the folder of a write-up: below "inputs/" they lie to each other as
/// the files do, below the innermost folder that holds them all, so that the copies find each
/// other. Named after their paths there, nothing tells where they lay.
class InputCopies {
public:
  /// Refers to the files.
  explicit InputCopies(const FilesRead& files);
  /// The copy of a file, by the path that the file was read by: "inputs/panels/a.yaml".
  [[nodiscard]] const std::string& copy_of(const std::string& path) const;
  /// Reads copies alone. A file that is named by its whole path has none that its name leads to.
  /// @param record  copy of the record: hints say how to name a file from there
  [[nodiscard]] Loader loader(const std::string& record) const;
  /// The same for logs, which are read where the files lie and must still be what they were.
  [[nodiscard]] LogOpener log_opener(const std::string& record) const;
  /// Messages about the copies, said of the files.
  [[nodiscard]] Diagnostics said_of_files(const Diagnostics& notes, const SourceSet& copies,
                                          SourceSet& sources) const;
  [[nodiscard]] std::vector<InputCopy> for_write_up() const;
  [[nodiscard]] std::vector<OutputFile> output() const;

private:
  struct Copy {
    const FilesRead::File* file = nullptr;
    std::string path;  ///< in the folder of the write-up
  };
  /// Nullptr when there is no such copy.
  [[nodiscard]] const FilesRead::File* find(const std::string& path) const;
  /// Why a path leads to no copy, and how to name the file.
  [[nodiscard]] Loaded no_copy(const std::string& path, const std::string& record) const;
  std::vector<Copy> copies_;
};

}  // namespace hailwright::cli
