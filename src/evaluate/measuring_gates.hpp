#pragma once

#include <vector>

#include "hailwright/evaluate/power.hpp"

namespace hailwright {

/// Whether the readings of a stage and of the one it is compared with can count (MEASUREMENT M9),
/// or those of the struck panel and of its siblings in one stage: what the record answers, and what
/// its numbers show. Every bound is ours [E] unless a comment says otherwise.
std::vector<PowerNote> check_measuring(const Test& test, StageId stage,
                                       StageId from = {StageKind::before, 0});

}  // namespace hailwright
