// What bends a caution beside the figures that cautions_test.cpp goes through.
#include "hailwright/safety/cautions.hpp"
#include "support/catch.hpp"

using namespace hailwright;

// Label and temperature coefficient of an invented panel: 40 V, -0.30 %/K within 0.05 %/K. At
// -10 degC, 35 K below the label's 25: half-widths once, a standard deviation twice.
TEST_CASE("caution triggers: the coldest voltage by what its coefficient may be wrong by") {
  Panel panel;
  panel.open_voltage = Voltage::from_si(40.0);
  StatedValue<TemperatureCoefficient> stated_beta;
  stated_beta.value = TemperatureCoefficient::from_si(-0.0030);
  stated_beta.size = TemperatureCoefficient::from_si(0.0005);
  stated_beta.shape = Shape::rectangular;
  panel.voltage_coefficient_stated = stated_beta;
  CHECK_THAT(coldest_open_voltage(panel)->si(), WithinRel(40.0 * (1.0 + 35.0 * 0.0035), 1e-12));
  panel.voltage_coefficient_stated->shape = Shape::normal;
  CHECK_THAT(coldest_open_voltage(panel)->si(), WithinRel(40.0 * (1.0 + 35.0 * 0.0040), 1e-12));
}

TEST_CASE("caution triggers: loads that need the caution of a power station") {
  CHECK(names_power_station("power station, 300 W input"));
  CHECK(names_power_station("a solar charge controller"));
  CHECK_FALSE(names_power_station("resistor"));
  CHECK_FALSE(names_power_station(""));
}

TEST_CASE("caution triggers: each group of cautions has its heading") {
  CHECK(text(CautionGroup::people) == "People");
  CHECK(text(CautionGroup::eyes) == "Eyes");
  CHECK(text(CautionGroup::launcher) == "Launcher");
  CHECK(text(CautionGroup::panel) == "Panel");
  CHECK(text(CautionGroup::ice) == "Ice");
  CHECK(text(CautionGroup::afterwards) == "Afterwards");
}
