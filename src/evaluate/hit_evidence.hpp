#pragma once

#include <vector>

#include "hailwright/evaluate/assessment.hpp"

namespace hailwright {

/// Evidence on hits from what was delivered, seen and judged (MEASUREMENT M12): each place's first
/// hit, when it was at least at the grade, is one trial. Visible damage persists, so hits that no
/// look saw anything after are trials without damage. A hit is one with damage when a new major
/// defect was seen and no other hit had come since the look before. Hits that cannot be told apart,
/// and all after the first damage, visible or to the power, are left out.
std::vector<HitEvidence> evidence_on_hits(const Test& test, const Assessment& assessment);

}  // namespace hailwright
