#pragma once

#include <vector>

#include "hailwright/model/protocol.hpp"

namespace hailwright {

/// Which panel a reading is of.
enum class ReadingOf { struck, control, both };

/// One reading of a set-up in its turn.
struct PlannedReading {
  int round = 1;
  ReadingOf of = ReadingOf::struck;
  friend bool operator==(const PlannedReading&, const PlannedReading&) = default;
};

/// The order of the readings of one set-up. Panels read in turn with one meter change places from
/// round to round, C A A C C A A C, so that what drifts evenly falls out of their difference
/// (MEASUREMENT M8; double substitution, S R Davis, J. Res. NBS 92(3) 239, 1987, read). Two meters
/// read both at once; a panel alone is read again and again.
/// @param rounds  1 or more
std::vector<PlannedReading> reading_order(Comparison compare, int meters, int rounds);

/// Whether that order takes an even drift out altogether: with one meter only in an even number of
/// rounds, since the last of an odd number has no partner.
bool removes_even_drift(Comparison compare, int meters, int rounds);

}  // namespace hailwright
