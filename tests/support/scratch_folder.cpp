#include "support/scratch_folder.hpp"

#include <algorithm>
#include <cstdlib>
#include <filesystem>
#include <fstream>
#include <system_error>

#include "support/catch.hpp"

namespace hailwright::testing {

namespace fs = std::filesystem;

ScratchFolder::ScratchFolder() {
  std::string pattern = (fs::temp_directory_path() / "hailwright-XXXXXX").string();
  REQUIRE(mkdtemp(pattern.data()) != nullptr);
  path_ = pattern;
}

ScratchFolder::~ScratchFolder() {
  std::error_code ignored;
  fs::remove_all(path_, ignored);
}

std::string ScratchFolder::write(const std::string& name, const std::string& text) const {
  const fs::path path = fs::path(path_) / name;
  fs::create_directories(path.parent_path());
  std::ofstream(path, std::ios::binary) << text;
  return path.string();
}

std::vector<std::string> ScratchFolder::names() const {
  std::vector<std::string> all;
  for (const auto& entry : fs::recursive_directory_iterator(path_)) {
    if (!entry.is_directory()) all.push_back(fs::relative(entry.path(), path_).string());
  }
  std::sort(all.begin(), all.end());
  return all;
}

}  // namespace hailwright::testing
