#include "input/record_energy.hpp"

#include "support/catch.hpp"
#include "support/input_files.hpp"

using namespace hailwright;
using input_files::only;
using input_files::seen;

namespace {

constexpr input::KeyList keys{"the record", "energy"};
constexpr double Wh = 3600.0;

std::vector<MeterSession> read(const std::string& text, Diagnostics& notes) {
  const input::Node node = input_files::tree(text);
  const input::MapReader record(node, keys, node.span, notes);
  return input::read_energy(record, notes);
}

std::string with(const std::string& more) {
  return "energy: [{name: morning, " + more + "}]\n";
}

}  // namespace

TEST_CASE("record_energy: every key") {
  Diagnostics notes;
  const auto sessions = read(R"(energy:
  - name: morning
    when: after
    date: 2026-06-14
    lasting: 3 h 10 min
    energy: 212.4 Wh
    step: 0.1 Wh
    accuracy: 1 % + 1 digit
    sun: {start: 640 W/m2, end: 870 W/m2}
    back: {start: 41 degC, end: 52 degC}
    beside:
      {label: C, energy: 209 Wh, step: 1 Wh, accuracy: 2 %, back: {start: 40 degC, end: 51 degC}}
)",
                             notes);
  CAPTURE(seen(notes));
  REQUIRE(notes.empty());
  REQUIRE(sessions.size() == 1);
  const MeterSession& s = sessions[0];
  CHECK(s.name == "morning");
  CHECK(s.after);
  CHECK(s.date == "2026-06-14");
  CHECK(s.lasting == Time::from_si(190 * 60.0));
  CHECK(s.lasting_step == Time::from_si(60.0));
  CHECK_THAT(s.energy.si(), WithinRel(212.4 * Wh, 1e-12));
  CHECK_THAT(s.typed_step.si(), WithinRel(0.1 * Wh, 1e-12));
  CHECK_THAT(s.energy_step->si(), WithinRel(0.1 * Wh, 1e-12));
  REQUIRE(s.meter);
  CHECK(s.meter->relative == percent(1));
  CHECK(s.meter->digits == 1.0);
  CHECK(s.sun_start == Irradiance::from_si(640.0));
  CHECK(s.sun_end == Irradiance::from_si(870.0));
  CHECK_THAT(s.back_end->celsius(), WithinAbs(52.0, 1e-9));
  REQUIRE(s.beside);
  CHECK(s.beside->label == "C");
  CHECK_THAT(s.beside->typed_step.si(), WithinRel(Wh, 1e-12));
  CHECK(s.beside->meter->relative == percent(2));
  CHECK_THAT(s.beside->back_start->celsius(), WithinAbs(40.0, 1e-9));
}

TEST_CASE("record_energy: durations with their last digit") {
  struct Row {
    const char* text;
    double seconds, step;
  };
  const Row row =
      GENERATE(Row{"190 min", 11400, 60}, Row{"3 h 10 min", 11400, 60}, Row{"0 h 5 min", 300, 60},
               Row{"2.5 h", 9000, 360}, Row{"90 s", 90, 1}, Row{"3 h 0 min", 10800, 60});
  CAPTURE(row.text);
  Diagnostics notes;
  const auto sessions = read(with("energy: 10 Wh, lasting: " + std::string(row.text)), notes);
  REQUIRE(notes.empty());
  CHECK_THAT(sessions.at(0).lasting.si(), WithinRel(row.seconds, 1e-12));
  CHECK_THAT(sessions.at(0).lasting_step.si(), WithinRel(row.step, 1e-9));
  CHECK_FALSE(sessions.at(0).after);
  CHECK_FALSE(sessions.at(0).meter);
}

TEST_CASE("record_energy: faults at their places") {
  struct Row {
    std::string text;
    const char* code;
  };
  const Row row =
      GENERATE(Row{"energy: []\n", "K14"}, Row{"energy: [{lasting: 1 h, energy: 1 Wh}]\n", "K02"},
               Row{with("energy: 1 Wh"), "K02"}, Row{with("lasting: 1 h"), "K02"},
               Row{with("lasting: 0 h 0 min, energy: 1 Wh"), "R01"},
               Row{with("lasting: 3 h 10, energy: 1 Wh"), "U13"},
               Row{with("lasting: 1000 h, energy: 1 Wh"), "R01"},
               Row{with("lasting: 1 h, energy: -1 Wh"), "R01"},
               Row{with("lasting: 1 h, energy: 1 W"), "U03"},
               Row{with("lasting: 1 h, energy: 1 Wh, sun: {start: 600 W/m2}"), "K02"},
               Row{with("lasting: 1 h, energy: 1 Wh, back: 40 degC"), "K05"},
               Row{with("lasting: 1 h, energy: 1 Wh, step: 0 Wh"), "R01"},
               Row{with("lasting: 1 h, energy: 1 Wh, when: later"), "K06"},
               Row{with("lasting: 1 h, energy: 1 Wh, beside: {energy: 1 Wh}"), "K02"},
               Row{with("lasting: 1 h, energy: 1 Wh, meter: good"), "K01"});
  CAPTURE(row.text);
  Diagnostics notes;
  read(row.text, notes);
  CHECK(only(notes).code == row.code);
}
