#include "cli/spreadsheet.hpp"

#include <fcntl.h>
#include <sys/stat.h>
#include <unistd.h>

#include <cstdlib>
#include <filesystem>
#include <optional>
#include <string>
#include <system_error>

#include "cli/descriptor.hpp"
#include "cli/files.hpp"
#include "cli/muted_errors.hpp"
#include "cli/size_limit.hpp"

namespace hailwright::cli {

namespace {

/// The system's folder for temporary files; empty where there is none.
std::string temporary_folder() {
  std::error_code none;
  const auto folder = std::filesystem::temp_directory_path(none);
  return none ? std::string() : folder.string();
}

/// An empty file that has no name any more, so that nothing of it stays however the program ends;
/// below 0 where none can be made.
int nameless_file(const std::string& folder) {
  std::string pattern = folder + "/hailwright-XXXXXX";
  const int file = mkostemp(pattern.data(), O_CLOEXEC);
  if (file < 0) return file;
  // It is opened again by its number, which a umask such as 777 must not forbid.
  fchmod(file, S_IRUSR | S_IWUSR);
  unlink(pattern.c_str());
  return file;
}

Loaded failed_because(const std::string& reason) {
  return {std::nullopt, "could not be made in the folder for temporary files: " + reason,
          "make room there, or name another such folder in TMPDIR"};
}

}  // namespace

Loaded spreadsheet_bytes(const Workbook& workbook) {
  const std::string folder = temporary_folder();
  const Descriptor file(folder.empty() ? -1 : nameless_file(folder));
  if (file.get() < 0) return failed_because("nothing can be written there");
  // The library writes by a path alone: this one leads to the open file.
  const std::string path = "/dev/fd/" + std::to_string(file.get());
  const SizeLimitIsAnError guard;
  std::optional<std::string> problem;
  {
    const MutedErrors said_twice;
    problem = write_xlsx(workbook, path, folder);
  }
  if (problem) return failed_because(*problem);
  constexpr std::size_t largest = std::size_t{1} << 30U;
  Loaded bytes = load_file(path, largest);
  if (!bytes.text) return failed_because(bytes.problem);
  return bytes;
}

}  // namespace hailwright::cli
