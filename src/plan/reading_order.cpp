#include "hailwright/plan/reading_order.hpp"

#include "hailwright/core/contract.hpp"

namespace hailwright {

std::vector<PlannedReading> reading_order(Comparison compare, int meters, int rounds) {
  expects(rounds >= 1, "reading_order: one round or more");
  expects(meters == 1 || meters == 2, "reading_order: one meter or two");
  const bool alone = compare == Comparison::same_panel;
  std::vector<PlannedReading> order;
  for (int round = 1; round <= rounds; ++round) {
    if (alone || meters == 2) {
      order.push_back({round, alone ? ReadingOf::struck : ReadingOf::both});
      continue;
    }
    const bool control_first = round % 2 == 1;
    order.push_back({round, control_first ? ReadingOf::control : ReadingOf::struck});
    order.push_back({round, control_first ? ReadingOf::struck : ReadingOf::control});
  }
  return order;
}

bool removes_even_drift(Comparison compare, int meters, int rounds) {
  if (compare == Comparison::same_panel) return false;
  return meters == 2 || rounds % 2 == 0;
}

}  // namespace hailwright
