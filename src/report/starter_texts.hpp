#pragma once

#include <string>

#include "hailwright/report/starter_files.hpp"

namespace hailwright::detail {

// In these texts "#key: value" with no blank behind the #, and deeper lines that follow it with a #
// in the same column, are keys that are not needed: read as they stand once that # is gone, which
// the tests try with each. "# words" are remarks.

std::string protocol_start(const StarterKind& kind);
std::string panel_start();
std::string record_start(const StarterKind& kind);
/// All kinds of stresses other than hail, as a protocol plans them and as a record tells of them.
std::string stresses_start();
std::string stresses_done_start();

}  // namespace hailwright::detail
