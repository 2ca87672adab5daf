#pragma once

#include <optional>
#include <vector>

#include "hailwright/metrology/budget.hpp"
#include "hailwright/model/record.hpp"

namespace hailwright {

/// The struck panel's normalised power before the shots with all that two panels read by the same
/// instruments can differ by.
struct ReferenceBudget {
  double log_power = 0.0;  ///< ln of the mean over its units [W]
  std::vector<BudgetRow> rows;
};

/// Its rows: the instruments, the temperature coefficient and the cell above the back, which make
/// up `ReferencePower::relative_u`; the scatter of the set-ups, pooled over all stages in which the
/// panel was read, or the components stated in its place, or the larger of the two where repeats
/// are few (MEASUREMENT M2); where all was read on one day, the sky of that day, which no repeat
/// shows (M1). The protocol's figure for a day is used where it is that of one panel.
///
/// Nothing where the panel was not read before the shots, or where nobody knows how its set-ups
/// scatter: one set-up a stage and no components stated, or steps not redone and not sized.
std::optional<ReferenceBudget> reference_budget(const Test& test);

}  // namespace hailwright
