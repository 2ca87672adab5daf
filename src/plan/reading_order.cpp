#include "hailwright/plan/reading_order.hpp"

#include <algorithm>

#include "hailwright/core/contract.hpp"

namespace hailwright {

namespace {

/// The readings of one round, in the order of an odd one; an even one goes backwards.
std::vector<PlannedReading> one_round(Comparison compare, int meters, int siblings) {
  switch (compare) {
  case Comparison::same_panel:
    return {{1, ReadingOf::struck}};
  case Comparison::control_panel:
    if (meters == 2) return {{1, ReadingOf::both}};
    return {{1, ReadingOf::control}, {1, ReadingOf::struck}};
  case Comparison::sibling_panel:
    break;
  }
  std::vector<PlannedReading> readings{{1, ReadingOf::struck}};
  for (int unit = 1; unit <= siblings; ++unit)
    readings.push_back({1, ReadingOf::sibling, unit});
  return readings;
}

}  // namespace

std::vector<PlannedReading> reading_order(Comparison compare, int meters, int rounds,
                                          int siblings) {
  expects(rounds >= 1, "reading_order: one round or more");
  expects(meters == 1 || meters == 2, "reading_order: one meter or two");
  expects((siblings >= 1) == (compare == Comparison::sibling_panel),
          "reading_order: siblings where they are compared with");
  std::vector<PlannedReading> turn = one_round(compare, meters, siblings);
  std::vector<PlannedReading> order;
  for (int round = 1; round <= rounds; ++round) {
    for (PlannedReading& reading : turn)
      reading.round = round;
    order.insert(order.end(), turn.begin(), turn.end());
    std::reverse(turn.begin(), turn.end());
  }
  return order;
}

bool removes_even_drift(Comparison compare, int meters, int rounds) {
  if (compare == Comparison::same_panel) return false;
  const bool at_once = compare == Comparison::control_panel && meters == 2;
  return at_once || rounds % 2 == 0;
}

}  // namespace hailwright
