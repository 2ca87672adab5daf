#pragma once

#include <string>

#include "hailwright/input/readers.hpp"

namespace hailwright::testing {

/// A loader over the files of the source tree.
Loader real_files();

/// A record of the source tree, read with its protocol, panels and tables; a failed check when it
/// has errors.
Test read_record(const std::string& path_in_tree);

}  // namespace hailwright::testing
