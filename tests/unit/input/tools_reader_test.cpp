#include "input/tools_reader.hpp"

#include "support/catch.hpp"
#include "support/input_files.hpp"

using namespace hailwright;
using namespace hailwright::input;
using input_files::seen;
using input_files::Seen;
using input_files::tree;

TEST_CASE("tools_reader: every tool with every key") {
  const Node root = tree(
      R"(meter: {id: clamp meter 2, accuracy: 1 % + 3 digits, step: 0.1 W, between_stages: 0.05 %}
sun: {id: S, spread: 2 %, step: 1 W/m2, between_stages: 0.5 %}
thermometer: {id: T, accuracy: 2 degC, each_time: 1 K, where: back, kind: infrared, one_per: panel}
scales: {id: kitchen, within: "0.2 g, 95 %", step: 0.1 g}
calipers: {id: "12", accuracy: unknown, step: 0.1 mm}
)");
  Diagnostics notes;
  const Tools tools = read_tools(root, root.span, notes);
  CAPTURE(seen(notes));
  CHECK(notes.empty());
  CHECK(tools.meter.id == "clamp meter 2");
  CHECK(tools.sun.id == "S");
  CHECK(tools.thermometer.id == "T");
  CHECK(tools.scales.id == "kitchen");
  CHECK(tools.calipers.id == "12");
  REQUIRE(tools.meter.error);
  CHECK(tools.meter.error->relative == percent(1));
  CHECK(tools.meter.error->digits == 3);
  CHECK(tools.meter.step == Power::from_si(0.1));
  CHECK(tools.meter.between_stages == percent(0.05));
  CHECK(tools.meter.origin.line == 1);
  REQUIRE(tools.sun.error);
  CHECK(tools.sun.error->shape == Shape::normal);
  REQUIRE(tools.thermometer.error);
  CHECK(tools.thermometer.error->absolute.si() == 2.0);
  CHECK(tools.thermometer.each_time->absolute.si() == 1.0);
  CHECK(tools.thermometer.where == SensorPlace::back);
  CHECK(tools.thermometer.infrared);
  CHECK(tools.thermometer.one_per_panel);
  REQUIRE(tools.scales.error);
  CHECK(tools.scales.step == 0.1_g);
  CHECK_FALSE(tools.calipers.error);
  CHECK(tools.calipers.origin.line == 5);
}

TEST_CASE("tools_reader: a tool that is not named has no place") {
  const Node root = tree("scales: {step: 1 g}\n");
  Diagnostics notes;
  const Tools tools = read_tools(root, root.span, notes);
  CHECK(notes.empty());
  CHECK(tools.meter.origin.line == 0);
  CHECK_FALSE(tools.meter.error);
  CHECK(tools.scales.id.empty());
  CHECK(tools.scales.origin.line == 1);
}

TEST_CASE("tools_reader: faults") {
  const Node root = tree(R"(meter: {step: 0 W}
sun: {step: 1 W}
thermometer: {accuracy: 2 %, where: inside, one_per: day}
scales: {between_stages: 1 %}
caliper: {step: 0.1 mm}
)");
  Diagnostics notes;
  read_tools(root, root.span, notes);
  CHECK(seen(notes) == std::vector<Seen>{{"R01", 1, 15},
                                         {"U03", 2, 15},
                                         {"U23", 3, 25},
                                         {"K06", 3, 37},
                                         {"K06", 3, 54},
                                         {"K01", 4, 10},
                                         {"K01", 5, 1}});
}
