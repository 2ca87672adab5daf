// EA-4/02 (Evaluation of the uncertainty of measurement in calibration), supplement S2.
#include <cmath>
#include <vector>

#include "hailwright/metrology/budget.hpp"
#include "hailwright/metrology/stated.hpp"
#include "support/catch.hpp"

using namespace hailwright;

namespace {

BudgetRow grams(const char* id, double u) {
  BudgetInput input;
  input.id = id;
  input.label = id;
  input.standard_u = u;
  return {input, 1.0};
}

double rectangular(double half_width) {
  return half_width / half_width_divisor(Shape::rectangular);
}

}  // namespace

// S2, a weight of nominally 10 kg. Status: read; tolerances 0.0001 g for u, 0.0005 g for U. The
// document itself prints u = 29.3 mg with 14.4 mg for the difference (memory); the page read uses
// 14.2 mg.
TEST_CASE("check lpu_mass_s2: five inputs of a sum, with their shapes", "[reference]") {
  const double mass = 10000.005 + 0.0 + 0.020 + 0.0 + 0.0;
  CHECK_THAT(mass, WithinAbs(10000.025, 1e-9));
  const std::vector<BudgetRow> rows{
      grams("standard", 0.045 / 2.0), grams("drift of the standard", rectangular(0.015)),
      grams("difference", 0.0142), grams("eccentricity", rectangular(0.010)),
      grams("buoyancy", rectangular(0.010))};
  const double u = combine(rows).standard_u;
  CHECK_THAT(u, WithinAbs(0.0291, 0.0001));
  CHECK_THAT(u, WithinRel(0.029147155378641442, 1e-9));
  CHECK_THAT(2.0 * u, WithinAbs(0.058, 0.0005));
  // Taking the limits for standard deviations, the usual slip, gives a third more.
  const std::vector<BudgetRow> slip{rows[0], grams("drift of the standard", 0.015), rows[2],
                                    grams("eccentricity", 0.010), grams("buoyancy", 0.010)};
  CHECK(combine(slip).standard_u > 0.033);
}
