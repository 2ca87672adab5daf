#include "hailwright/safety/stored_gas.hpp"

#include <cmath>
#include <limits>

#include "hailwright/core/contract.hpp"
#include "support/catch.hpp"

using namespace hailwright;

namespace {

Volume litres(double value) {
  return Volume::from_si(value / 1000.0);
}
Pressure bar(double value) {
  return Pressure::from_si(value * 1e5);
}

}  // namespace

// Table computed from the two formulas before this program was written; the tolerance is half
// of the last digit given.
TEST_CASE("stored gas: 1 to 10 l at 2 to 10 bar over the air outside") {
  struct Row {
    double litre, gauge_bar, lower_kJ, half_lower, upper_kJ, half_upper;
  };
  const Row row = GENERATE(Row{1, 2, 0.20, 0.005, 0.50, 0.005}, Row{1, 4, 0.46, 0.005, 1.0, 0.05},
                           Row{1, 7, 0.89, 0.005, 1.75, 0.005}, Row{1, 10, 1.4, 0.05, 2.5, 0.05},
                           Row{2, 2, 0.40, 0.005, 1.0, 0.05}, Row{2, 4, 0.92, 0.005, 2.0, 0.05},
                           Row{2, 7, 1.8, 0.05, 3.5, 0.05}, Row{2, 10, 2.7, 0.05, 5.0, 0.05},
                           Row{5, 2, 1.0, 0.05, 2.5, 0.05}, Row{5, 4, 2.3, 0.05, 5.0, 0.05},
                           Row{5, 7, 4.5, 0.05, 8.75, 0.005}, Row{5, 10, 6.8, 0.05, 12.5, 0.05},
                           Row{10, 2, 2.0, 0.05, 5.0, 0.05}, Row{10, 4, 4.6, 0.05, 10.0, 0.5},
                           Row{10, 7, 8.9, 0.05, 17.5, 0.05}, Row{10, 10, 13.6, 0.05, 25.0, 0.5});
  CAPTURE(row.litre, row.gauge_bar);
  const StoredGas stored = stored_gas(bar(row.gauge_bar), litres(row.litre));
  CHECK_THAT(stored.lower.si() / 1000.0, WithinAbs(row.lower_kJ, row.half_lower));
  CHECK_THAT(stored.upper.si() / 1000.0, WithinAbs(row.upper_kJ, row.half_upper));
}

TEST_CASE("stored gas: nothing over the pressure outside stores nothing, and a vacuum is refused") {
  CHECK(stored_gas(bar(0.0), litres(10.0)).lower.si() == 0.0);
  CHECK(stored_gas(bar(0.0), litres(10.0)).upper.si() == 0.0);
  CHECK(stored_gas(bar(5.0), litres(0.0)).upper.si() == 0.0);
  CHECK_THROWS_AS(stored_gas(bar(-0.1), litres(1.0)), BugError);
  CHECK_THROWS_AS(stored_gas(bar(1.0), litres(-1.0)), BugError);
  CHECK_THROWS_AS(
      stored_gas(Pressure::from_si(std::numeric_limits<double>::quiet_NaN()), litres(1.0)),
      BugError);
}

TEST_CASE("stored gas: the lower figure is below the upper one and both rise with both answers") {
  double last = 0.0;
  for (const double gauge : {0.1, 0.5, 1.0, 4.0, 10.0, 100.0, 300.0}) {
    CAPTURE(gauge);
    const StoredGas stored = stored_gas(bar(gauge), litres(2.0));
    CHECK(stored.lower.si() > last);
    CHECK(stored.lower < stored.upper);
    CHECK_THAT(stored_gas(bar(gauge), litres(4.0)).lower.si(),
               WithinRel(2.0 * stored.lower.si(), 1e-12));
    last = stored.lower.si();
  }
}

// Work of a slow expansion without heat, summed in small steps of p dV with p V^1.4 constant and
// the work against the air outside left in (common practice of thermodynamics): an own route to the
// lower figure.
TEST_CASE("stored gas: the lower figure is the work of an expansion step by step") {
  const double outside_Pa = 101325.0, inside_Pa = 4e5 + outside_Pa, volume_m3 = 0.002;
  const double end_m3 = volume_m3 * std::pow(inside_Pa / outside_Pa, 1.0 / 1.4);
  const int steps = 100000;
  double work_J = 0.0;
  for (int i = 0; i < steps; ++i) {
    const double at_m3 = volume_m3 + (end_m3 - volume_m3) * (i + 0.5) / steps;
    work_J += inside_Pa * std::pow(volume_m3 / at_m3, 1.4) * (end_m3 - volume_m3) / steps;
  }
  CHECK_THAT(stored_gas(bar(4.0), litres(2.0)).lower.si(), WithinRel(work_J, 1e-8));
}
