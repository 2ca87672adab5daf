#include "evaluate/log_inputs.hpp"

#include <cmath>

#include "support/catch.hpp"
#include "support/log_answers.hpp"

using namespace hailwright;
using namespace hailwright::testing;

TEST_CASE("log_inputs: a part without a size is no input") {
  Assumptions assumptions;
  Tools tools;
  tools.meter.error = Stated<Power>{};
  CHECK(meter_inputs(tools, Power::from_si(0.1), "", assumptions).empty());
  CHECK(assumptions.used().empty());
}

TEST_CASE("log_inputs: the step of a display is the stated one before the one met") {
  Assumptions assumptions;
  Tools tools;
  tools.meter.error = Stated<Power>{};
  tools.meter.error->digits = 3.0;
  const auto digits = [&] {
    return meter_inputs(tools, Power::from_si(0.1), "", assumptions).at(0).input.standard_u;
  };
  CHECK_THAT(digits(), WithinRel(0.3 / std::sqrt(3.0), 1e-12));
  CHECK(assumptions.uses(DefaultId::display_step));
  tools.meter.step = Power::from_si(0.01);
  CHECK_THAT(digits(), WithinRel(0.03 / std::sqrt(3.0), 1e-12));
}

TEST_CASE("log_inputs: what a second panel has of its own is another input") {
  Assumptions assumptions;
  const Tools tools;
  const auto first = meter_inputs(tools, Power::from_si(0.1), "", assumptions);
  const auto second = meter_inputs(tools, Power::from_si(0.1), "/beside", assumptions);
  REQUIRE(first.size() == second.size());
  CHECK(first[0].input.id == "meter/gain");
  CHECK(second[0].input.id == "meter/gain/beside");
  CHECK(second[0].input.label == "power meter, gain, second panel");
}

TEST_CASE("log_inputs: a thermometer's share of the reading is taken at the mean in degC") {
  Assumptions assumptions;
  Tools tools;
  tools.thermometer.error = Stated<TemperatureDifference>{};
  tools.thermometer.error->relative = percent(2);
  tools.thermometer.each_time = Stated<TemperatureDifference>{};
  const auto inputs =
      thermal_inputs(tools, {}, TemperaturePoint::from_celsius(45.0), "", assumptions);
  REQUIRE(inputs.size() == 1);
  CHECK(inputs[0].slot == ErrorSlot::temperature);
  CHECK_THAT(inputs[0].input.standard_u, WithinRel(0.9 / std::sqrt(3.0), 1e-12));
}

TEST_CASE("log_inputs: degrees of freedom of a scatter follow the effective number") {
  const auto dof = [](const SeriesMean& s) {
    return scatter_input(s, "scatter", "scatter")->degrees_of_freedom;
  };
  CHECK(dof(series_of(3600, 1.0, 0.1, 0.9, 190.0)) == 189.0);
  CHECK(dof(series_of(20, 1.0, 0.1, 0.99, 1.2)) == 1.0);  // never below one
  CHECK(dof(series_of(5, 1.0, 0.1, 0.0, 1.0)) == 4.0);
  CHECK_FALSE(scatter_input(series_of(1, 1.0, 0.0, 0.0, 1.0), "scatter", "scatter"));
}
