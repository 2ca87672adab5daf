#pragma once

#include <array>
#include <optional>
#include <string_view>
#include <vector>

#include "hailwright/physics/string_curve.hpp"

// What kinds of damage do to the four figures of an I-V curve, by the single-diode model with
// assumed cells: in which direction a change points, never how a true panel must behave.

namespace hailwright {

/// The four figures in the order of all vectors here.
enum class CurveFigure { open_voltage, short_current, voltage_at_maximum, current_at_maximum };
inline constexpr std::size_t curve_figures = 4;
/// A number for each figure, such as changes of the logarithm.
using CurveVector = std::array<double, curve_figures>;

enum class CurvePattern {
  substring_gone,     ///< size: voltage lost in the way around it [V], 0 to 0.7
  part_of_one_cell,   ///< size: share of one cell that is cut off
  all_cells_less,     ///< size: share by which the current of every cell is less
  series_resistance,  ///< size: added in the leads, joints or fingers of the panel [ohm]
  shunt               ///< size: conductance added across the panel, the same in each cell [1/ohm]
};
inline constexpr std::array all_curve_patterns{
    CurvePattern::substring_gone, CurvePattern::part_of_one_cell, CurvePattern::all_cells_less,
    CurvePattern::series_resistance, CurvePattern::shunt};

/// What is known of a panel at 25 degC and 1000 W/m2. What is missing is assumed [ours]: 0.61 V a
/// cell, 5 A, a fill factor of 0.75; as many cells as fit the voltage.
struct CurveRatings {
  std::optional<Voltage> open_voltage;
  std::optional<Current> short_current;
  std::optional<Power> power;
  std::optional<int> cells;       ///< in series, 1 or more
  std::optional<int> substrings;  ///< with a bypass diode each, 1 or more
};

/// A panel of equal cells that has these ratings, and what had to be assumed for it.
/// Ideality 1.1 and a shunt that takes 0.5 % of the current at open circuit [ours]; the series
/// resistance is what makes the fill factor, the saturation current what makes the voltage.
struct AssumedPanel {
  SolarCell cell;
  int cells = 0;
  int substrings = 0;  ///< 0: not known
  Voltage open_voltage;
  bool voltage_assumed = false, current_assumed = false, power_assumed = false;
  bool cells_assumed = false;
  /// No series resistance from zero on makes the stated power: the nearest is taken.
  bool power_out_of_reach = false;

  /// Change of ln(open-circuit voltage) per change of ln(current): n k T / (e V of a cell).
  [[nodiscard]] double voltage_per_log_current() const;
};
AssumedPanel assumed_panel(const CurveRatings& ratings);

/// Many equal cells in series as one with the same curve: ideality and resistances times so many.
SolarCell stacked(SolarCell cell, int count);

/// Whether the panel can have it: a substring can only be gone where there are two or more.
bool can_have(const AssumedPanel& panel, CurvePattern pattern);

/// Figures of the panel with this much of the pattern; size 0 of the others is the whole panel.
/// Contract: `can_have`, size in its range (`largest_size`).
SweepFigures figures_with(const AssumedPanel& panel, CurvePattern pattern, double size);

/// The size at which half of the power is gone, as the range ends [ours]; 0.7 V for a diode that
/// conducts [from memory: 0.3 V to 0.7 V], and the whole cell for a part of one.
double largest_size(const AssumedPanel& panel, CurvePattern pattern);

/// What a size does to the logarithms of the figures; one of `sizes` evenly spaced ones.
struct PatternPoint {
  double size = 0.0;
  CurveVector change{};
};
/// From the smallest to the largest, evenly spaced; none where the panel cannot have it. A part of
/// a cell or a substring leaves something of every figure, so that all logarithms are finite.
std::vector<PatternPoint> pattern_points(const AssumedPanel& panel, CurvePattern pattern,
                                         int intervals);

}  // namespace hailwright
