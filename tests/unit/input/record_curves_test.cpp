#include "input/record_curves.hpp"

#include "support/catch.hpp"
#include "support/input_files.hpp"

using namespace hailwright;
using namespace hailwright::input;
using input_files::only;
using input_files::seen;
using input_files::Seen;
using input_files::tree;

namespace {

std::optional<CurveReadings> read(const std::string& yaml, Diagnostics& notes) {
  constexpr KeyList keys{"the record", "curves"};
  const Node root = tree(yaml);
  return read_curves(MapReader(root, keys, root.span, notes), notes);
}

}  // namespace

TEST_CASE("record_curves: meters and readings of both stages") {
  Diagnostics notes;
  const auto curves = read("curves:\n"
                           "  voltmeter: {accuracy: 0.5 % + 2 digits, step: 0.01 V}\n"
                           "  ammeter: {accuracy: unknown}\n"
                           "  before:\n"
                           "    - {open_voltage: 21.4 V, short_current: 5.2 A, voltage_at_maximum: "
                           "17.2 V, current_at_maximum: 4900 mA, sun: 905 W/m2, back: 44 degC}\n"
                           "  after:\n"
                           "    - {open_voltage: 14.3 V, sun: 880 W/m2, back: 46 degC}\n",
                           notes);
  CAPTURE(seen(notes));
  CHECK(notes.empty());
  REQUIRE(curves);
  REQUIRE(curves->voltmeter);
  CHECK_THAT(curves->voltmeter->relative.si(), WithinRel(0.005, 1e-12));
  CHECK(curves->voltmeter->digits == 2);
  CHECK(curves->voltmeter_step->si() == 0.01);
  CHECK_FALSE(curves->ammeter);
  REQUIRE(curves->before.size() == 1);
  CHECK(curves->before[0].origin.line == 5);
  CHECK(curves->before[0].open_circuit->si() == 21.4);
  CHECK_THAT(curves->before[0].current_at_maximum->si(), WithinRel(4.9, 1e-12));
  REQUIRE(curves->after.size() == 1);
  CHECK_FALSE(curves->after[0].short_circuit);
  CHECK(curves->after[0].sun.si() == 880.0);
  CHECK_THAT(curves->after[0].back.celsius(), WithinAbs(46.0, 1e-9));
}

TEST_CASE("record_curves: a record without them") {
  Diagnostics notes;
  CHECK_FALSE(read("curve: 3\n", notes));
  CHECK(only(notes).code == "K01");
}

TEST_CASE("record_curves: one stage alone, empty stages, readings without a figure") {
  Diagnostics one;
  read("curves: {before: [{open_voltage: 21 V, sun: 900 W/m2, back: 40 degC}]}\n", one);
  CHECK(only(one).code == "K02");
  Diagnostics empty;
  read("curves: {before: [], after: [{open_voltage: 21 V, sun: 900 W/m2, back: 40 degC}]}\n",
       empty);
  CHECK(only(empty).code == "K14");
  Diagnostics none;
  read("curves:\n"
       "  before: [{sun: 900 W/m2, back: 40 degC}]\n"
       "  after: [{open_voltage: 21 V}]\n",
       none);
  CHECK(seen(none) == std::vector<Seen>{{"K02", 2, 12}, {"K02", 3, 11}, {"K02", 3, 11}});
}

TEST_CASE("record_curves: digits need a step") {
  Diagnostics notes;
  read("curves:\n"
       "  voltmeter: {accuracy: 1 % + 3 digits}\n"
       "  before: [{open_voltage: 21 V, sun: 900 W/m2, back: 40 degC}]\n"
       "  after: [{open_voltage: 21 V, sun: 900 W/m2, back: 40 degC}]\n",
       notes);
  CHECK(only(notes).code == "K02");
}

TEST_CASE("record_curves: figures out of their ranges") {
  Diagnostics notes;
  read("curves:\n"
       "  before: [{open_voltage: 0 V, short_current: -1 A, sun: 0 W/m2, back: 40 degC}]\n"
       "  after: [{open_voltage: 21 W, sun: 900 W/m2, back: 400 degC}]\n",
       notes);
  CHECK(seen(notes) ==
        std::vector<Seen>{
            {"R01", 2, 27}, {"R01", 2, 47}, {"R01", 2, 58}, {"U03", 3, 29}, {"R01", 3, 53}});
}

TEST_CASE("record_curves: figures that contradict each other") {
  const auto codes = [](const std::string& figures) {
    Diagnostics notes;
    read("curves:\n"
         "  before: [{" +
             figures +
             ", sun: 900 W/m2, back: 40 degC}]\n"
             "  after: [{" +
             figures + ", sun: 900 W/m2, back: 40 degC}]\n",
         notes);
    return seen(notes);
  };
  CHECK(codes("open_voltage: 21.0 V, voltage_at_maximum: 20.9 V").empty());
  CHECK(codes("open_voltage: 21.0 V, voltage_at_maximum: 21.0 V").size() == 2);
  CHECK(codes("short_current: 5.00 A, current_at_maximum: 5.09 A").empty());
  CHECK(codes("short_current: 5.00 A, current_at_maximum: 5.11 A").size() == 2);
}

TEST_CASE("record_curves: nothing that was read twice") {
  Diagnostics notes;
  read("curves:\n"
       "  before: [{open_voltage: 21 V, sun: 900 W/m2, back: 40 degC}]\n"
       "  after: [{short_current: 5 A, sun: 900 W/m2, back: 40 degC}]\n",
       notes);
  CHECK(only(notes).code == "C56");
}
