#pragma once

#include <string>
#include <vector>

#include "hailwright/evaluate/line_up.hpp"

namespace hailwright {

/// What must agree for a record to be ranked with another: series with their targets and places
/// and the other stresses of the protocol, comparison, limit, and the stages that answer.
std::vector<LineUpTrait> line_up_traits(const Test& test, const Assessment& assessment);

/// "after small", "after".
std::string stage_words(const Protocol& protocol, StageId stage);

}  // namespace hailwright
