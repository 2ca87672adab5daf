#pragma once

#include <cstdint>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace hailwright::cli {

/// What the names of temporary files begin and end with; between stand the number of the program
/// that made it, "-" and a number.
inline constexpr std::string_view temporary_prefix = ".hailwright-";
inline constexpr std::string_view temporary_suffix = ".part";

/// What becomes of something that has the name already.
enum class Existing {
  keep,    ///< it stays, whatever it is, and nothing is written
  replace  ///< an ordinary file is replaced at one stroke; anything else stays
};

/// Why something could not be written. `problem` goes on after the path: "is there already".
struct WriteFault {
  std::string path;
  std::string problem;
  std::string hint;  ///< the mend; may be empty
};

/// Writes a file whole or not at all: the name is given to it only when all bytes are on the disk,
/// so that nobody ever finds a part of it there. Until then they lie in the same folder under a
/// name that begins with ".hailwright-"; whatever goes wrong, that file is removed. Permissions are
/// those of the umask. `keep` cannot overwrite what another program makes in the meantime. A
/// symbolic link is neither followed nor replaced.
/// @return what went wrong; nothing when the file is written
std::optional<WriteFault> write_whole(const std::string& path, std::string_view bytes,
                                      Existing existing);

/// A file too large to hold, by what it was when it was read.
struct LargeFile {
  std::string path;
  std::string sha256;
  std::uint64_t size = 0;  ///< [bytes]
};

struct OutputFile {
  std::string name;  ///< inside the folder; may begin with names of folders in it: "a/b/c.csv"
  std::string bytes;
  /// What is copied instead of `bytes`. A fault when it has changed since it was read.
  std::optional<LargeFile> copied = {};
};
/// SHA-256 of what it holds.
std::string sha256_of(const OutputFile& file);

/// Writes several files into a folder, which is made when it is not there (the one above it must
/// be). First it is looked whether all can be written, and all are written under temporary names;
/// only then do they get their own. With `keep` it is all of them or none: what was made is taken
/// away again when one fails. With `replace` those that got their names before one failed remain.
/// @param gone  names inside the folder of files that are removed when all of `files` but the last
///              have their names: a last file that lists the others is never ahead of them
/// @return what went wrong, each file that is in the way by itself; nothing when all are written
std::vector<WriteFault> write_files(const std::string& folder, const std::vector<OutputFile>& files,
                                    Existing existing, const std::vector<std::string>& gone = {});

/// A fault for each file that would take the place of one that was read, with other bytes: nobody
/// loses what a result is made from, whatever `Existing` says.
/// @param read  paths of the files that were read
std::vector<WriteFault> inputs_in_the_way(const std::string& folder,
                                          const std::vector<OutputFile>& files,
                                          const std::vector<std::string>& read);

/// The faults for standard error, a line each; below it the mend, once for all that share it.
std::string text_of(const std::vector<WriteFault>& faults);

}  // namespace hailwright::cli
