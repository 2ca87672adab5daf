#pragma once

#include <array>
#include <vector>

#include "evaluate/curve_changes.hpp"

namespace hailwright {

/// What each pattern does to one panel, by its size; empty where the panel cannot have it.
using PatternTable = std::array<std::vector<PatternPoint>, all_curve_patterns.size()>;
PatternTable pattern_table(const AssumedPanel& panel);

/// All patterns against the changes, and the word. Contract: one figure at least was read twice.
LossPattern weigh_patterns(const CurveChanges& changes, const AssumedPanel& panel,
                           const PatternTable& table);

}  // namespace hailwright
