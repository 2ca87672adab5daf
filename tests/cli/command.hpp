#pragma once

#include <string>

namespace hailwright::testing {

/// What a command printed and how it ended.
struct Finished {
  std::string out;
  std::string err;
  int exit_code = -1;
};

/// Runs `hailwright ARGUMENTS` with a shell from a folder; a hang ends after 60 s with code 124.
/// @param environment  such as "NO_COLOR=1"
Finished run_hailwright(const std::string& arguments, const std::string& folder = {},
                        const std::string& environment = {});

/// A file of the source tree.
std::string source_file(const std::string& path_in_tree);

/// A folder of its own that is gone afterwards.
class ScratchFolder {
public:
  ScratchFolder();
  ScratchFolder(const ScratchFolder&) = delete;
  ScratchFolder& operator=(const ScratchFolder&) = delete;
  ScratchFolder(ScratchFolder&&) = delete;
  ScratchFolder& operator=(ScratchFolder&&) = delete;
  ~ScratchFolder();
  [[nodiscard]] const std::string& path() const { return path_; }
  /// Writes a file into it and gives its path.
  std::string write(const std::string& name, const std::string& text) const;

private:
  std::string path_;
};

}  // namespace hailwright::testing
