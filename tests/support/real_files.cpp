#include "support/real_files.hpp"

#include <fstream>
#include <sstream>

#include "support/catch.hpp"

namespace hailwright::testing {

Loader real_files() {
  return [](const std::string& path, std::size_t largest) -> Loaded {
    std::ifstream in(path, std::ios::binary);
    if (!in) return {std::nullopt, "is not there", {}};
    std::ostringstream text;
    text << in.rdbuf();
    if (text.str().size() > largest) return {std::nullopt, "is too large", {}};
    return {text.str(), {}, {}};
  };
}

Test read_record(const std::string& path_in_tree) {
  SourceSet sources;
  const Loader load = real_files();
  Checked<Test> read =
      read_test(std::string(HAILWRIGHT_SOURCE_DIR) + "/" + path_in_tree, load, sources);
  INFO(render_diagnostics(read.notes, sources));
  REQUIRE(read.value.has_value());
  return std::move(*read.value);
}

}  // namespace hailwright::testing
