#include "support/file_bytes.hpp"

#include <fstream>
#include <iterator>

#include "support/catch.hpp"

namespace hailwright::testing {

std::string file_bytes(const std::string& path) {
  CAPTURE(path);
  std::ifstream file(path, std::ios::binary);
  REQUIRE(file);
  return {std::istreambuf_iterator<char>(file), {}};
}

std::string tree_file(const std::string& path_in_tree) {
  return file_bytes(std::string(HAILWRIGHT_SOURCE_DIR) + "/" + path_in_tree);
}

}  // namespace hailwright::testing
