#include "report/tool_words.hpp"

#include "support/catch.hpp"

using namespace hailwright;

TEST_CASE("tool words: everything that was stated and what its sizes are") {
  Tool<Power> meter;
  CHECK(tool_text(meter, "W") == "error not stated");
  meter.id = "meter 2";
  Stated<Power> error;
  error.relative = percent(1);
  error.digits = 3;
  meter.error = error;
  meter.step = Power::from_si(0.1);
  CHECK(tool_text(meter, "W") ==
        "meter 2: 1 % of the reading and 3 steps of the display (half-width); step 0.1 W");
  error = {};
  error.shape = Shape::normal;
  error.absolute = Power::from_si(0.25);
  error.digits = 1;
  meter.error = error;
  meter.step.reset();
  CHECK(tool_text(meter, "W") ==
        "meter 2: 0.25 W and 1 step of the display (standard uncertainty)");
  meter.error = Stated<Power>{};
  CHECK(tool_text(meter, "W") == "meter 2: taken as exact");
}

TEST_CASE("tool words: units of the quantity and not of SI") {
  Tool<Mass> scales;
  Stated<Mass> error;
  error.shape = Shape::triangular;
  error.absolute = Mass::from_si(0.0002);
  scales.error = error;
  scales.step = Mass::from_si(0.01);
  CHECK(tool_text(scales, "g") == "0.2 g (half-width, triangular); step 10 g");
  Tool<Length> calipers;
  Stated<Length> reach;
  reach.shape = Shape::arcsine;
  reach.absolute = Length::from_si(0.0001);
  calipers.error = reach;
  CHECK(tool_text(calipers, "mm") == "0.1 mm (half-width, arcsine)");
  Tool<Irradiance> sun;
  sun.step = Irradiance::from_si(1.0);
  CHECK(tool_text(sun, "W/m2") == "error not stated; step 1 W/m2");
}

TEST_CASE("tool words: a thermometer with where it sits") {
  Thermometer t;
  CHECK(thermometer_text(t) == "error not stated; by contact");
  Stated<TemperatureDifference> error;
  error.absolute = TemperatureDifference::from_si(2.0);
  t.error = error;
  t.each_time = error;
  t.infrared = true;
  t.one_per_panel = true;
  t.where = SensorPlace::back;
  CHECK(thermometer_text(t) == "2 K (half-width); put on or aimed anew 2 K (half-width); on the "
                               "back; infrared; one for each panel");
  t.where = SensorPlace::cell;
  CHECK_THAT(thermometer_text(t), Contains("at a cell"));
  t.where = SensorPlace::front;
  CHECK_THAT(thermometer_text(t), Contains("on the front"));
}
