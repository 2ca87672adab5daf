#include "hailwright/physics/string_curve.hpp"

#include <cmath>

#include "hailwright/core/contract.hpp"
#include "support/catch.hpp"

using namespace hailwright;

namespace {

// k T / e at 25 degC, from the exact values of the SI.
constexpr double thermal_V = 1.380649e-23 * 298.15 / 1.602176634e-19;

constexpr TemperaturePoint warm = TemperaturePoint::from_celsius(25.0);

SolarCell cell_of(double photo_A, double saturation_A, double ideality, double series_ohm,
                  double shunt_ohm) {
  return {Current::from_si(photo_A), Current::from_si(saturation_A), ideality,
          Resistance::from_si(series_ohm), Resistance::from_si(shunt_ohm)};
}

const SolarCell usual = cell_of(5.9, 8.5e-10, 1.05, 0.006, 15.0);

CellString in_groups(int groups, int cells_each, const SolarCell& cell,
                     Bypass bypass = Bypass::diode) {
  CellString string;
  string.groups.assign(
      static_cast<std::size_t>(groups),
      {std::vector<SolarCell>(static_cast<std::size_t>(cells_each), cell), bypass});
  string.bypass_drop = Voltage::from_si(0.45);
  string.cell = warm;
  return string;
}

}  // namespace

// Without resistances the model has a closed form: V = n V_T ln(1 + (I_L - I)/I_0).
TEST_CASE("cell_voltage: closed form of a cell without resistances") {
  const SolarCell ideal = cell_of(5.0, 1e-9, 1.0, 0.0, 1e15);
  for (const double i : {0.0, 1.0, 4.5, 4.999}) {
    CAPTURE(i);
    const double expected = thermal_V * std::log1p((5.0 - i) / 1e-9);
    CHECK_THAT(cell_voltage(ideal, Current::from_si(i), warm).si(), WithinRel(expected, 1e-11));
  }
}

TEST_CASE("cell_voltage: the currents balance at every current, also under reverse voltage") {
  const double slope = 1.05 * thermal_V;
  for (const double i : {0.0, 2.0, 5.8, 5.9, 6.0, 8.0}) {
    CAPTURE(i);
    const double v = cell_voltage(usual, Current::from_si(i), warm).si();
    const double junction = v + i * 0.006;
    CHECK_THAT(5.9 - 8.5e-10 * std::expm1(junction / slope) - junction / 15.0, WithinAbs(i, 1e-11));
  }
}

TEST_CASE("string_voltage: cells add, a diode bounds, a shorted one takes all") {
  const Current some = Current::from_si(5.0);
  const double one = cell_voltage(usual, some, warm).si();
  CHECK_THAT(string_voltage(in_groups(2, 18, usual), some).si(), WithinRel(36.0 * one, 1e-12));
  CellString string = in_groups(2, 18, usual);
  string.groups[0].bypass = Bypass::shorted;
  CHECK_THAT(string_voltage(string, some).si(), WithinRel(18.0 * one, 1e-12));
  string = in_groups(2, 18, usual);
  string.groups[0].cells[3] = with_inactive_area(usual, percent(60));
  CHECK_THAT(string_voltage(string, some).si(), WithinRel(18.0 * one - 0.45, 1e-12));
  string.groups[0].bypass = Bypass::none;
  CHECK(string_voltage(string, some).si() < 0.0);
}

// Textbook identity of a cell without resistances (from memory):
// V_oc = V_mp + n V_T ln(1 + V_mp / (n V_T)).
TEST_CASE("sweep_figures: the maximum of an ideal cell") {
  const CellString one = in_groups(1, 1, cell_of(5.0, 1e-9, 1.0, 0.0, 1e15));
  const SweepFigures f = sweep_figures(one);
  const double vmp = f.at_maximum.si();
  // The current of a maximum is known to the root of the rounding of its power.
  CHECK_THAT(vmp + thermal_V * std::log1p(vmp / thermal_V), WithinRel(f.open_circuit.si(), 1e-6));
  CHECK_THAT(f.short_circuit.si(), WithinRel(5.0, 1e-9));
  CHECK(f.fill_factor().si() > 0.8);
  CHECK(f.fill_factor().si() < 0.9);
}

TEST_CASE("sweep_figures: a weak cell without a diode limits the panel, with one its group") {
  const SolarCell weak = with_inactive_area(usual, percent(60));
  const double whole = sweep_figures(in_groups(2, 18, usual)).maximum().si();
  CellString string = in_groups(2, 18, usual);
  string.groups[1].cells[0] = weak;
  const double with_diode = sweep_figures(string).maximum().si();
  string.groups[0].bypass = Bypass::none;
  string.groups[1].bypass = Bypass::none;
  const double without = sweep_figures(string).maximum().si();
  CHECK(with_diode > 0.45 * whole);
  CHECK(with_diode < 0.55 * whole);
  CHECK(without < with_diode);
}

TEST_CASE("sweep_figures: a string in the dark gives zeros") {
  const SweepFigures f = sweep_figures(in_groups(1, 4, with_inactive_area(usual, percent(100))));
  CHECK(f.open_circuit.si() == 0.0);
  CHECK(f.short_circuit.si() == 0.0);
  CHECK(f.maximum().si() == 0.0);
}

TEST_CASE("string curve: arguments outside their domain are our bug") {
  CHECK_THROWS_AS(cell_voltage(usual, Current::from_si(-1.0), warm), BugError);
  CHECK_THROWS_AS(cell_voltage(cell_of(5, 1e-9, 0.0, 0, 15), Current{}, warm), BugError);
  CHECK_THROWS_AS(cell_voltage(cell_of(5, 1e-9, 1.0, 0, 0), Current{}, warm), BugError);
  CHECK_THROWS_AS(with_inactive_area(usual, percent(101)), BugError);
  CHECK_THROWS_AS(sweep_figures(CellString{}), BugError);
}
