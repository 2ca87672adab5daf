#include "hailwright/physics/curve_patterns.hpp"

#include <algorithm>
#include <cmath>

#include "hailwright/core/contract.hpp"

namespace hailwright {

namespace {

// A silicon cell in full sun [ours], the middle of common sheets.
constexpr double usual_cell_V = 0.61, usual_current_A = 5.0, usual_fill_factor = 0.75;
constexpr double ideality = 1.1;
/// What the shunt of a whole cell takes at open circuit, as a share of the photocurrent.
constexpr double shunt_share = 0.005;
constexpr double conducting_diode_V = 0.7;
/// The bypass diode of a substring in which one cell is weak.
constexpr double bypass_drop_V = 0.45;
/// Shares up to this leave a figure of which a logarithm can be taken.
constexpr double most_of_a_cell = 0.99;
constexpr TemperaturePoint standard_cell = TemperaturePoint::from_celsius(25.0);

// k T / e at 25 degC; both constants exact by definition of the SI.
constexpr double thermal_V = 1.380649e-23 * 298.15 / 1.602176634e-19;

CellString of_one(const SolarCell& cell) {
  CellString string;
  string.groups = {{{cell}, Bypass::none}};
  string.cell = standard_cell;
  return string;
}

/// The whole cell of a panel, but for its series resistance.
SolarCell cell_without_series(double open_V, double short_A) {
  SolarCell cell;
  cell.ideality = ideality;
  cell.photo = Current::from_si(short_A);
  cell.shunt = Resistance::from_si(open_V / (shunt_share * short_A));
  cell.saturation =
      Current::from_si((1.0 - shunt_share) * short_A / std::expm1(open_V / (ideality * thermal_V)));
  return cell;
}

/// The series resistance at which the cell's maximum power is as wanted: more of it, less power.
Resistance series_for_power(SolarCell cell, double power_W, double highest_ohm) {
  double low = 0.0;
  double high = highest_ohm;
  constexpr int halvings = 30;
  for (int i = 0; i < halvings; ++i) {
    cell.series = Resistance::from_si(0.5 * (low + high));
    (sweep_figures(of_one(cell)).maximum().si() > power_W ? low : high) = cell.series.si();
  }
  return Resistance::from_si(0.5 * (low + high));
}

/// Groups of a panel of which one cell is another one: equal cells stacked into one each.
CellString with_one_cell(const AssumedPanel& panel, const SolarCell& one) {
  const int groups = std::max(1, panel.substrings);
  CellString string;
  string.cell = standard_cell;
  string.bypass_drop = Voltage::from_si(bypass_drop_V);
  const Bypass bypass = panel.substrings > 0 ? Bypass::diode : Bypass::none;
  for (int g = 0; g < groups; ++g) {
    int count = panel.cells / groups + (g < panel.cells % groups ? 1 : 0);
    CellGroup group{{}, bypass};
    if (g == 0) {
      group.cells.push_back(one);
      --count;
    }
    if (count > 0) group.cells.push_back(stacked(panel.cell, count));
    string.groups.push_back(std::move(group));
  }
  return string;
}

/// A substring that carries nothing: its diode takes the current at this drop, and a voltmeter at
/// open circuit sees none of it.
SweepFigures without_a_substring(const AssumedPanel& panel, double drop_V) {
  const int each = panel.cells / panel.substrings;
  CellString string;
  string.cell = standard_cell;
  string.bypass_drop = Voltage::from_si(drop_V);
  SolarCell dark = panel.cell;
  dark.photo = Current{};
  dark.saturation = Current{};
  dark.shunt = Resistance::from_si(1e9);
  string.groups = {{{dark}, drop_V > 0.0 ? Bypass::diode : Bypass::shorted},
                   {{stacked(panel.cell, panel.cells - each)}, Bypass::diode}};
  return sweep_figures(string);
}

SolarCell weakened(SolarCell cell, CurvePattern pattern, double size, int cells) {
  switch (pattern) {
  case CurvePattern::all_cells_less:
    cell.photo = (1.0 - size) * cell.photo;
    break;
  case CurvePattern::series_resistance:
    cell.series += Resistance::from_si(size / cells);
    break;
  case CurvePattern::shunt:
    cell.shunt = Resistance::from_si(1.0 / (1.0 / cell.shunt.si() + size * cells));
    break;
  case CurvePattern::substring_gone:
  case CurvePattern::part_of_one_cell:
    break;
  }
  return cell;
}

/// Where half of the power is gone, between nothing and `high`.
double half_power_size(const AssumedPanel& panel, CurvePattern pattern, double high) {
  const double half = 0.5 * figures_with(panel, pattern, 0.0).maximum().si();
  double low = 0.0;
  constexpr int halvings = 20;
  for (int i = 0; i < halvings; ++i) {
    const double middle = 0.5 * (low + high);
    (figures_with(panel, pattern, middle).maximum().si() > half ? low : high) = middle;
  }
  return high;
}

double log_ratio(double with, double without) {
  return std::log(with / without);
}

CurveVector log_change(const SweepFigures& with, const SweepFigures& without) {
  return {log_ratio(with.open_circuit.si(), without.open_circuit.si()),
          log_ratio(with.short_circuit.si(), without.short_circuit.si()),
          log_ratio(with.at_maximum.si(), without.at_maximum.si()),
          log_ratio(with.current_at_maximum.si(), without.current_at_maximum.si())};
}

}  // namespace

double AssumedPanel::voltage_per_log_current() const {
  return cell.ideality * thermal_V * cells / open_voltage.si();
}

AssumedPanel assumed_panel(const CurveRatings& ratings) {
  AssumedPanel panel;
  panel.cells_assumed = !ratings.cells;
  panel.voltage_assumed = !ratings.open_voltage;
  panel.current_assumed = !ratings.short_current;
  panel.power_assumed = !ratings.power;
  panel.substrings = ratings.substrings.value_or(0);
  constexpr int usual_cells = 36;
  const auto fitting = [&] {
    if (!ratings.open_voltage) return usual_cells;
    return std::max(1, static_cast<int>(std::lround(ratings.open_voltage->si() / usual_cell_V)));
  };
  panel.cells = std::max(ratings.cells ? *ratings.cells : fitting(), panel.substrings);
  panel.open_voltage = ratings.open_voltage.value_or(Voltage::from_si(usual_cell_V * panel.cells));
  const double short_A = ratings.short_current.value_or(Current::from_si(usual_current_A)).si();
  const double open_V = panel.open_voltage.si();
  const double power_W =
      ratings.power.value_or(Power::from_si(usual_fill_factor * open_V * short_A)).si();
  expects(open_V > 0.0 && short_A > 0.0 && power_W > 0.0 && panel.cells > 0,
          "ratings of a panel above zero");
  const double cell_V = open_V / panel.cells;
  panel.cell = cell_without_series(cell_V, short_A);
  const double cell_W = power_W / panel.cells;
  // A resistance of half of V/I leaves a fill factor near a third.
  const double most_ohm = 0.5 * cell_V / short_A;
  panel.cell.series = series_for_power(panel.cell, cell_W, most_ohm);
  const double made_W = sweep_figures(of_one(panel.cell)).maximum().si();
  panel.power_out_of_reach = std::abs(made_W - cell_W) > 0.005 * cell_W;
  return panel;
}

SolarCell stacked(SolarCell cell, int count) {
  expects(count > 0, "one cell or more");
  cell.ideality *= count;
  cell.series = static_cast<double>(count) * cell.series;
  cell.shunt = static_cast<double>(count) * cell.shunt;
  return cell;
}

bool can_have(const AssumedPanel& panel, CurvePattern pattern) {
  if (pattern == CurvePattern::substring_gone) return panel.substrings >= 2;
  // One cell alone is all cells.
  return pattern != CurvePattern::part_of_one_cell || panel.cells >= 2;
}

SweepFigures figures_with(const AssumedPanel& panel, CurvePattern pattern, double size) {
  expects(can_have(panel, pattern) && size >= 0.0, "a pattern that the panel can have");
  if (pattern == CurvePattern::substring_gone) return without_a_substring(panel, size);
  if (pattern == CurvePattern::part_of_one_cell) {
    return sweep_figures(
        with_one_cell(panel, with_inactive_area(panel.cell, Ratio::from_si(size))));
  }
  return sweep_figures(
      of_one(stacked(weakened(panel.cell, pattern, size, panel.cells), panel.cells)));
}

double largest_size(const AssumedPanel& panel, CurvePattern pattern) {
  const double panel_ohm = (panel.open_voltage / panel.cell.photo).si();
  switch (pattern) {
  case CurvePattern::substring_gone:
    return conducting_diode_V;
  case CurvePattern::part_of_one_cell:
    return most_of_a_cell;
  case CurvePattern::all_cells_less:
    return half_power_size(panel, pattern, 0.9);
  case CurvePattern::series_resistance:
    return half_power_size(panel, pattern, panel_ohm);
  case CurvePattern::shunt:
    return half_power_size(panel, pattern, 2.0 / panel_ohm);
  }
  return 0.0;
}

std::vector<PatternPoint> pattern_points(const AssumedPanel& panel, CurvePattern pattern,
                                         int intervals) {
  expects(intervals > 0, "one interval or more");
  std::vector<PatternPoint> points;
  if (!can_have(panel, pattern)) return points;
  const SweepFigures whole = figures_with(panel, CurvePattern::all_cells_less, 0.0);
  const double largest = largest_size(panel, pattern);
  for (int i = 0; i <= intervals; ++i) {
    const double size = largest * i / intervals;
    points.push_back({size, log_change(figures_with(panel, pattern, size), whole)});
  }
  return points;
}

}  // namespace hailwright
