#pragma once

#include <vector>

#include "hailwright/model/protocol.hpp"

namespace hailwright {

/// Which panel a reading is of; both: struck and control at once.
enum class ReadingOf { struck, control, both, sibling };

/// One reading of a set-up in its turn.
struct PlannedReading {
  int round = 1;
  ReadingOf of = ReadingOf::struck;
  int unit = 0;  ///< of the siblings: the first is 1
  friend bool operator==(const PlannedReading&, const PlannedReading&) = default;
};

/// The order of the readings of one set-up. Panels read in turn with one meter change places from
/// round to round, C A A C C A A C, so that what drifts evenly falls out of their difference
/// (MEASUREMENT M8; double substitution, S R Davis, J. Res. NBS 92(3) 239, 1987, read). Two meters
/// read both at once; a panel alone is read again and again. The struck panel and its siblings are
/// read in turn, A 1 2 3, and back again, 3 2 1 A.
/// @param rounds  1 or more
/// @param siblings  unstruck units, 1 or more where they are compared with
std::vector<PlannedReading> reading_order(Comparison compare, int meters, int rounds,
                                          int siblings = 0);

/// Whether that order takes an even drift out altogether: of panels read in turn only in an even
/// number of rounds, since the last of an odd number has no partner.
bool removes_even_drift(Comparison compare, int meters, int rounds);

}  // namespace hailwright
