#include "input/record_shading.hpp"

#include "hailwright/input/readers.hpp"
#include "support/catch.hpp"
#include "support/input_files.hpp"

using namespace hailwright;
using input_files::Files;
using input_files::good_files;
using input_files::only;
using input_files::seen;

namespace {

constexpr input::KeyList keys{"the record", "shading"};

std::vector<ShadeTrial> read(const std::string& text, Diagnostics& notes,
                             std::optional<int> substrings = std::nullopt) {
  const input::Node node = input_files::tree(text);
  const input::MapReader record(node, keys, node.span, notes);
  return input::read_shading(record, substrings, notes);
}

std::string with_round(const std::string& round) {
  return "shading:\n  - shade: one cell\n    rounds:\n      - {" + round + "}\n";
}

std::string with_voltage(const std::string& voltage) {
  return "shading:\n  - shade: one cell\n    open_voltage: {" + voltage + "}\n";
}

}  // namespace

TEST_CASE("record_shading: every key") {
  Diagnostics notes;
  const auto trials = read(R"(shading:
  - shade: lower left cell
    when: after
    date: 2026-06-14
    rounds:
      - {free: 81.2 W, shaded: 39.9 W, sun: {free: 905 W/m2, shaded: 903 W/m2}, back: 44 degC}
      - {free: 80 W, shaded: 0 W, sun: 900 W/m2, back: {free: 44 degC, shaded: 46 degC}}
    open_voltage:
      {free: 21.8 V, shaded: 11.2 V, substrings: 1, accuracy: 0.5 % + 2 digits, step: 0.01 V}
)",
                           notes, 2);
  CAPTURE(seen(notes));
  REQUIRE(notes.empty());
  REQUIRE(trials.size() == 1);
  const ShadeTrial& t = trials[0];
  CHECK(t.shade == "lower left cell");
  CHECK(t.after);
  CHECK(t.date == "2026-06-14");
  REQUIRE(t.rounds.size() == 2);
  CHECK(t.rounds[0].shaded == Power::from_si(39.9));
  CHECK(t.rounds[0].sun_shaded == Irradiance::from_si(903.0));
  CHECK_FALSE(t.rounds[0].sun_typed_once);
  CHECK(t.rounds[0].back_typed_once);
  CHECK(t.rounds[1].shaded == Power{});
  CHECK(t.rounds[1].sun_free == t.rounds[1].sun_shaded);
  CHECK(t.rounds[1].sun_typed_once);
  CHECK_THAT(t.rounds[1].back_shaded.celsius(), WithinAbs(46.0, 1e-9));
  CHECK(t.open_free == Voltage::from_si(21.8));
  CHECK(t.open_shaded == Voltage::from_si(11.2));
  CHECK(t.substrings_shaded == 1);
  REQUIRE(t.voltmeter);
  CHECK(t.voltmeter->relative == percent(0.5));
  CHECK(t.voltmeter->digits == 2.0);
  CHECK(t.voltmeter_step == Voltage::from_si(0.01));
}

TEST_CASE("record_shading: left out it is before the shots, and there may be none") {
  Diagnostics notes;
  const auto trials =
      read(with_round("free: 8 W, shaded: 4 W, sun: 900 W/m2, back: 40 degC"), notes);
  REQUIRE(trials.size() == 1);
  CHECK_FALSE(trials[0].after);
  CHECK_FALSE(trials[0].open_free);
  CHECK(read("{}", notes).empty());
  CHECK(notes.empty());
}

TEST_CASE("record_shading: faults at their places") {
  struct Row {
    std::string text;
    const char* code;
    int line;
  };
  const Row row = GENERATE(
      Row{"shading: []\n", "K14", 1}, Row{"shading: one cell\n", "K05", 1},
      Row{"shading: [{shade: one cell}]\n", "K02", 1},
      Row{"shading: [{shade: one cell, rounds: []}]\n", "K14", 1},
      Row{"shading: [{rounds: [{free: 8 W, shaded: 4 W, sun: 900 W/m2, back: 4 degC}]}]\n", "K02",
          1},
      Row{with_round("free: 8 W, shaded: 4 W, sun: 900 W/m2"), "K02", 4},
      Row{with_round("free: 8 W, sun: 900 W/m2, back: 40 degC"), "K02", 4},
      Row{with_round("free: 0 W, shaded: 0 W, sun: 900 W/m2, back: 40 degC"), "R01", 4},
      Row{with_round("free: 8 W, shaded: -1 W, sun: 900 W/m2, back: 40 degC"), "R01", 4},
      Row{with_round("free: 8 W, shaded: 4 W, sun: 0 W/m2, back: 40 degC"), "R01", 4},
      Row{with_round("free: 8 W, shaded: 4 W, sun: {free: 900 W/m2}, back: 40 degC"), "K02", 4},
      Row{with_round("free: 8 W, shaded: 4 W, sun: 900 W, back: 40 degC"), "U03", 4},
      Row{with_round("free: 8 W, dark: 4 W, shaded: 4 W, sun: 900 W/m2, back: 40 degC"), "K01", 4},
      Row{with_voltage("free: 21 V, shaded: 11 V"), "K02", 3},
      Row{with_voltage("free: 21 V, shaded: 11 V, substrings: 0"), "R02", 3},
      Row{with_voltage("free: 21 V, shaded: 11 V, substrings: 3"), "C19", 3},
      Row{with_voltage("free: 21 V, shaded: 11 V, substrings: 1, accuracy: 2"), "U02", 3});
  CAPTURE(row.text);
  Diagnostics notes;
  read(row.text, notes, 2);
  const Diagnostic note = only(notes);
  CHECK(note.code == row.code);
  CHECK(note.where.line == row.line);
}

TEST_CASE("record_shading: substrings of the panel file bound those in the shade") {
  Files files = good_files();
  files.at("panel.yaml") += "substrings: 2\n";
  files.at("record.yaml") +=
      "shading: [{shade: half, open_voltage: {free: 21 V, shaded: 1 V, substrings: 3}}]\n";
  SourceSet sources;
  const auto checked = read_test("record.yaml", input_files::loader(files), sources);
  CHECK(only(checked.notes).code == "C19");
}
