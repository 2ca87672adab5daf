#pragma once

#include <string>

namespace hailwright::testing {

/// All bytes of a file; a failed check when it cannot be opened.
std::string file_bytes(const std::string& path);
/// The same of a file of the source tree: "docs/units.md".
std::string tree_file(const std::string& path_in_tree);

}  // namespace hailwright::testing
