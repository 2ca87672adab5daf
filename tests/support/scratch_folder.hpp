#pragma once

#include <string>
#include <vector>

namespace hailwright::testing {

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
  /// The path of something in it.
  [[nodiscard]] std::string operator/(const std::string& name) const { return path_ + "/" + name; }
  /// Writes a file into it, or into a folder in it that is made, and gives its path.
  std::string write(const std::string& name, const std::string& text) const;
  /// Everything in it, hidden or not, without its folders.
  [[nodiscard]] std::vector<std::string> names() const;

private:
  std::string path_;
};

}  // namespace hailwright::testing
