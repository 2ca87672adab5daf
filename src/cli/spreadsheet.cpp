#include "cli/spreadsheet.hpp"

#include <unistd.h>

#include <cstdlib>
#include <filesystem>
#include <system_error>

#include "cli/files.hpp"
#include "cli/size_limit.hpp"

namespace hailwright::cli {

namespace {

/// A folder of its own under the system's one for temporary files; empty where there is no room.
class TemporaryFolder {
public:
  TemporaryFolder() {
    std::error_code none;
    const auto above = std::filesystem::temp_directory_path(none);
    if (none) return;
    std::string pattern = (above / "hailwright-XXXXXX").string();
    if (mkdtemp(pattern.data()) != nullptr) path_ = pattern;
  }
  TemporaryFolder(const TemporaryFolder&) = delete;
  TemporaryFolder& operator=(const TemporaryFolder&) = delete;
  TemporaryFolder(TemporaryFolder&&) = delete;
  TemporaryFolder& operator=(TemporaryFolder&&) = delete;
  ~TemporaryFolder() {
    std::error_code ignored;
    if (!path_.empty()) std::filesystem::remove_all(path_, ignored);
  }
  [[nodiscard]] const std::string& path() const { return path_; }

private:
  std::string path_;
};

Loaded failed(const std::string& reason) {
  return {std::nullopt, "could not be made in the folder for temporary files: " + reason,
          "make room there, or name another such folder in TMPDIR"};
}

}  // namespace

Loaded spreadsheet_bytes(const Workbook& workbook) {
  const TemporaryFolder folder;
  if (folder.path().empty()) return failed("nothing can be written there");
  const SizeLimitIsAnError guard;
  const std::string file = folder.path() + "/tables.xlsx";
  if (const auto problem = write_xlsx(workbook, file, folder.path())) return failed(*problem);
  constexpr std::size_t largest = std::size_t{1} << 30U;
  Loaded bytes = load_file(file, largest);
  if (!bytes.text) return failed(bytes.problem);
  return bytes;
}

}  // namespace hailwright::cli
