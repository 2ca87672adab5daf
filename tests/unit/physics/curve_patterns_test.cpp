#include "hailwright/physics/curve_patterns.hpp"

#include <cmath>

#include "hailwright/core/contract.hpp"
#include "support/catch.hpp"

using namespace hailwright;

namespace {

CurveRatings ratings(double open_V, double short_A, double power_W, int cells, int substrings) {
  CurveRatings r;
  r.open_voltage = Voltage::from_si(open_V);
  r.short_current = Current::from_si(short_A);
  r.power = Power::from_si(power_W);
  r.cells = cells;
  if (substrings > 0) r.substrings = substrings;
  return r;
}

AssumedPanel usual(int substrings = 2) {
  return assumed_panel(ratings(22.1, 5.9, 100.0, 36, substrings));
}

CurveVector change(const AssumedPanel& panel, CurvePattern pattern, double size) {
  const SweepFigures a = figures_with(panel, CurvePattern::all_cells_less, 0.0);
  const SweepFigures b = figures_with(panel, pattern, size);
  return {std::log(b.open_circuit.si() / a.open_circuit.si()),
          std::log(b.short_circuit.si() / a.short_circuit.si()),
          std::log(b.at_maximum.si() / a.at_maximum.si()),
          std::log(b.current_at_maximum.si() / a.current_at_maximum.si())};
}

}  // namespace

TEST_CASE("curve_patterns: the assumed panel has the ratings") {
  for (const double power : {80.0, 92.0, 100.0}) {
    CAPTURE(power);
    const AssumedPanel p = assumed_panel(ratings(22.1, 5.9, power, 36, 2));
    const SweepFigures f = figures_with(p, CurvePattern::shunt, 0.0);
    CHECK_THAT(f.open_circuit.si(), WithinRel(22.1, 1e-9));
    CHECK_THAT(f.short_circuit.si(), WithinRel(5.9, 2e-3));
    CHECK_THAT(f.maximum().si(), WithinRel(power, 1e-6));
    CHECK_FALSE(p.power_out_of_reach);
    CHECK_FALSE((p.cells_assumed || p.voltage_assumed || p.current_assumed || p.power_assumed));
  }
}

TEST_CASE("curve_patterns: a power that no cells of these make is said") {
  CHECK(assumed_panel(ratings(22.1, 5.9, 125.0, 36, 2)).power_out_of_reach);
  CHECK(assumed_panel(ratings(22.1, 5.9, 30.0, 36, 2)).power_out_of_reach);
}

TEST_CASE("curve_patterns: what is missing is assumed and said") {
  const AssumedPanel p = assumed_panel({});
  CHECK((p.cells_assumed && p.voltage_assumed && p.current_assumed && p.power_assumed));
  CHECK(p.cells == 36);
  CHECK(p.substrings == 0);
  CHECK_THAT(figures_with(p, CurvePattern::shunt, 0.0).fill_factor().si(), WithinAbs(0.75, 1e-3));
  CurveRatings voltage;
  voltage.open_voltage = Voltage::from_si(12.3);
  CHECK(assumed_panel(voltage).cells == 20);
}

TEST_CASE("curve_patterns: stacked cells are the sum of single ones") {
  const SolarCell cell = usual().cell;
  const TemperaturePoint warm = TemperaturePoint::from_celsius(25.0);
  for (const double i : {0.0, 3.0, 5.5, 5.9}) {
    CAPTURE(i);
    const Current current = Current::from_si(i);
    CHECK_THAT(cell_voltage(stacked(cell, 17), current, warm).si(),
               WithinRel(17.0 * cell_voltage(cell, current, warm).si(), 1e-9));
  }
  CHECK_THROWS_AS(stacked(cell, 0), BugError);
}

TEST_CASE("curve_patterns: one substring of N takes a share of 1 to N of the voltages") {
  for (const int n : {2, 3, 4}) {
    CAPTURE(n);
    const double share = std::log(1.0 - 1.0 / n);
    const CurveVector shorted = change(usual(n), CurvePattern::substring_gone, 0.0);
    CHECK_THAT(shorted[0], WithinAbs(share, 1e-9));
    CHECK_THAT(shorted[1], WithinAbs(0.0, 1e-9));
    CHECK_THAT(shorted[2], WithinAbs(share, 1e-5));
    CHECK_THAT(shorted[3], WithinAbs(0.0, 1e-5));
    // A diode that conducts takes its drop off the voltage at maximum, not off that without load.
    const CurveVector bypassed = change(usual(n), CurvePattern::substring_gone, 0.5);
    CHECK_THAT(bypassed[0], WithinAbs(share, 1e-9));
    const double maximum_V = figures_with(usual(n), CurvePattern::shunt, 0.0).at_maximum.si();
    // The maximum moves on to a little less current.
    CHECK_THAT(bypassed[2], WithinAbs(std::log(1.0 - 1.0 / n - 0.5 / maximum_V), 5e-3));
  }
}

TEST_CASE("curve_patterns: directions of the others") {
  const CurveVector part = change(usual(), CurvePattern::part_of_one_cell, 0.15);
  CHECK(std::abs(part[0]) < 1e-3);
  CHECK(std::abs(part[1]) < 1e-3);
  CHECK(part[2] > 0.02);
  CHECK(part[3] < -0.05);
  const CurveVector all = change(usual(), CurvePattern::all_cells_less, 0.1);
  CHECK_THAT(all[1], WithinAbs(std::log(0.9), 1e-3));
  CHECK_THAT(all[3], WithinAbs(all[1], 1e-3));
  // Voc follows the logarithm of the current.
  CHECK_THAT(all[0], WithinAbs(usual().voltage_per_log_current() * std::log(0.9), 1e-4));
  const CurveVector series = change(usual(), CurvePattern::series_resistance, 0.3);
  CHECK(series[0] == Approx(0.0).margin(1e-9));
  CHECK(series[2] < -0.06);
  CHECK(series[3] > 0.3 * series[2]);
  const CurveVector shunt = change(usual(), CurvePattern::shunt, 1.0 / 50.0);
  CHECK(shunt[3] < -0.04);
  CHECK(shunt[3] < 5.0 * shunt[0]);
}

TEST_CASE("curve_patterns: without a bypass diode a weak cell limits the short-circuit current") {
  const CurveVector none = change(usual(0), CurvePattern::part_of_one_cell, 0.2);
  // Its neighbours drive current through its shunt, so that less than the share is lost.
  CHECK(none[1] < -0.04);
  CHECK(none[1] > std::log(0.8));
  CHECK(change(usual(2), CurvePattern::part_of_one_cell, 0.2)[1] > -0.001);
  CHECK_FALSE(can_have(usual(0), CurvePattern::substring_gone));
  CHECK_FALSE(can_have(usual(1), CurvePattern::substring_gone));
  CHECK(pattern_points(usual(0), CurvePattern::substring_gone, 5).empty());
  CHECK_THROWS_AS(figures_with(usual(0), CurvePattern::substring_gone, 0.0), BugError);
  CHECK_THROWS_AS(figures_with(usual(), CurvePattern::shunt, -0.1), BugError);
}

TEST_CASE("curve_patterns: points rise evenly from no change to half of the power") {
  for (const CurvePattern pattern :
       {CurvePattern::all_cells_less, CurvePattern::series_resistance, CurvePattern::shunt}) {
    CAPTURE(static_cast<int>(pattern));
    const auto points = pattern_points(usual(), pattern, 4);
    REQUIRE(points.size() == 5);
    CHECK(points[0].size == 0.0);
    for (const double c : points[0].change)
      CHECK(std::abs(c) < 1e-6);
    CHECK(points[2].size == Approx(2.0 * points[1].size));
    CHECK_THAT(points[4].change[2] + points[4].change[3], WithinAbs(std::log(0.5), 1e-3));
  }
}
