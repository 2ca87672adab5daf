#pragma once

#include <cstdint>

#include "hailwright/model/record.hpp"
#include "hailwright/physics/curve_patterns.hpp"

namespace hailwright::testing {

/// A test of an invented panel, 22.1 V, 5.9 A, 100 W, 36 cells in three substrings, with hand-held
/// meters of 1 % and 3 digits and no figures of the curve yet.
Test test_for_curves();

/// The panel of `test_for_curves` as the program assumes it.
AssumedPanel panel_for_curves();

struct DrawnCurves {
  int before = 3, after = 3;
  double sun_scatter = 0.004;     ///< standard deviation from reading to reading
  double figure_scatter = 0.001;  ///< of each figure by itself
};

/// Figures as the meters would show them before and after this much of a pattern: their errors, the
/// sky of both days and the scatter are drawn; digits are rounded. Nothing drawn for seed 0.
CurveReadings drawn_curves(CurvePattern pattern, double size, std::uint64_t seed,
                           const DrawnCurves& how = {});

}  // namespace hailwright::testing
