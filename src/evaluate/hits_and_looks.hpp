#pragma once

#include <cstddef>
#include <vector>

#include "hailwright/evaluate/assessment.hpp"

namespace hailwright {

struct PanelHit {
  const Shot* shot = nullptr;
  const ShotResult* result = nullptr;
};

/// Every hit on the panel in the order thrown: series after series, as records are read (T36).
std::vector<PanelHit> hits_in_order(const Record& record, const Assessment& assessment);

/// How many of these hits had been made by a look that is not the one at the start.
std::size_t hits_by(const Look& look, const std::vector<PanelHit>& hits);

/// What a look showed that may count.
enum class Sight { nothing, major, open };
Sight sight_of(const Assessment& assessment, std::size_t look);

}  // namespace hailwright
