#include "hailwright/plan/planned_units.hpp"

#include "support/catch.hpp"

using namespace hailwright;

TEST_CASE("planned_units: the protocol's numbers, and three set-ups where it gives none") {
  MeasurementPlan m;
  m.before = 5;
  CHECK(planned_units(m).before == 5);
  CHECK(planned_units(m).after == 3);
  CHECK(planned_units(m).siblings == 0);
  // MEASUREMENT M8: a fitted line takes four a stage.
  m.fitted_trend = true;
  CHECK(proposed_setups(m) == 4);
  CHECK(planned_units(m).before == 5);
  CHECK(planned_units(m).after == 4);
}

TEST_CASE("planned_units: siblings stand for the stage before the shots") {
  MeasurementPlan m;
  m.compare = Comparison::sibling_panel;
  CHECK(planned_units(m).before == 0);
  CHECK(planned_units(m).after == 3);
  CHECK(planned_units(m).siblings == 3);
  m.siblings = 5;
  m.after = 2;
  CHECK(planned_units(m).siblings == 5);
  CHECK(planned_units(m).after == 2);
}

// MEASUREMENT M2: three siblings decide, in one set-up each; M6: three set-ups a stage do.
TEST_CASE("planned_units: enough of what decides, and never fewer than planned") {
  MeasurementPlan m;
  PlannedUnits units = enough_units(m, {1, 7, 0});
  CHECK(units.before == 3);
  CHECK(units.after == 7);
  m.compare = Comparison::sibling_panel;
  units = enough_units(m, {0, 1, 2});
  CHECK(units.before == 0);
  CHECK(units.after == 1);
  CHECK(units.siblings == 3);
  CHECK(enough_units(m, {0, 1, 8}).siblings == 8);
}
