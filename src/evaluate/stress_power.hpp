#pragma once

#include <optional>
#include <vector>

#include "hailwright/evaluate/power.hpp"

namespace hailwright {

/// For each stress done, the power of the first stage read after it against the last one read
/// before it; each pair of stages once. A stress without a stage after it has none.
std::vector<PowerResult> judge_stress_power(const Test& test, Assumptions& assumptions,
                                            const std::optional<CheckPlan>& check, Extent extent);

}  // namespace hailwright
