#include "logs/log_analysis_notes.hpp"

#include "support/catch.hpp"

using namespace hailwright;
using namespace hailwright::detail;

namespace {

constexpr std::int64_t second = 1'000'000;
constexpr std::int64_t noon = 1'781'438'400 * second;  // 2026-06-14T12:00:00Z

/// A log of an hour from noon on, to which a test adds what is to be told.
struct Told {
  LogQuestion question;
  LogStretch whole;
  CutResult cut;
  bool complete = true;
  CounterFalls falls;

  Told() {
    question.first_file = 4;
    question.rules.longest_gap = Time::from_si(10.0);
    question.kept_rows = 500;
    whole.rows = 3601;
    whole.from_us = noon;
    whole.to_us = noon + 3600 * second;
    whole.bridged_s = 3600.0;
    whole.energy = Energy::from_si(36'000.0);
  }
  CutStretch& add(const char* name, std::int64_t line, std::int64_t rows = 300) {
    CutStretch one;
    one.stretch.name = name;
    one.stretch.rows = one.stretch.power_series.count = rows;
    one.stretch.bridged_s = static_cast<double>(rows - 1);
    one.place = {1, line};
    cut.stretches.push_back(one);
    return cut.stretches.back();
  }
  [[nodiscard]] std::vector<Diagnostic> notes() const {
    Diagnostics all;
    warn_of({question, whole, cut, complete, falls}, all);
    return all.items();
  }
};

void check(const Diagnostic& note, std::string_view code, std::uint32_t file, int line,
           const char* message) {
  CHECK(note.severity == Severity::warning);
  CHECK(note.code == code);
  CHECK(note.where.file == file);
  CHECK(note.where.line == line);
  CHECK(note.message == message);
}

CounterReading counter_of(double counted_j, double in_gaps_j = 0.0, double step_j = 3600.0) {
  CounterReading counter;
  counter.counted = Energy::from_si(counted_j);
  counter.in_gaps = Energy::from_si(in_gaps_j);
  counter.step_j = step_j;
  counter.rows = 3601;
  return counter;
}

}  // namespace

TEST_CASE("analysis notes: a log without anything to tell tells nothing") {
  Told told;
  told.add("before 1", 10);
  CHECK(told.notes().empty());
}

TEST_CASE("analysis notes: durations in two units at most") {
  CHECK(duration_words(0.5) == "0.5 s");
  CHECK(duration_words(10.0) == "10 s");
  CHECK(duration_words(59.9) == "59.9 s");
  CHECK(duration_words(59.99) == "1 min");
  CHECK(duration_words(125.0) == "2 min 5 s");
  CHECK(duration_words(3599.6) == "1 h");
  CHECK(duration_words(12'000.0) == "3 h 20 min");
  CHECK(duration_words(86'380.0) == "1 d");
  CHECK(duration_words(187'200.0) == "2 d 4 h");
}

TEST_CASE("analysis notes: all gaps in one message at the longest") {
  Told told;
  told.whole.gaps = 3;
  told.whole.in_gaps_s = 360.0;
  told.whole.longest_gaps = {{noon + 60 * second, noon + 360 * second, 1, 77}};
  const std::vector<Diagnostic> notes = told.notes();
  REQUIRE(notes.size() == 1);
  check(notes[0], "L23", 5, 77,
        "3 gaps longer than 10 s, together 6 min (10 % of the log), not bridged; the longest, "
        "5 min from 2026-06-14T12:01:00Z to 2026-06-14T12:06:00Z, ends in this line");
}

TEST_CASE("analysis notes: of a log that is cut only gaps inside the stretches") {
  Told told;
  told.question.cut.kind = LogCut::Kind::times;
  told.whole.gaps = 3;
  told.whole.in_gaps_s = 2400.0;
  told.whole.longest_gaps = {{noon + 60 * second, noon + 1860 * second, 1, 77}};
  told.add("before 1", 10);
  CHECK(told.notes().empty());

  const auto add_gap = [](LogStretch& s, int at_s, int lasting_s, std::int64_t line) {
    s.from_us = noon;
    s.to_us = noon + 300 * second;
    s.gaps = 1;
    s.in_gaps_s = lasting_s;
    s.longest_gaps = {{noon + at_s * second, noon + (at_s + lasting_s) * second, 1, line}};
  };
  add_gap(told.cut.stretches.front().stretch, 60, 12, 71);
  std::vector<Diagnostic> notes = told.notes();
  REQUIRE(notes.size() == 1);
  check(notes[0], "L23", 5, 71,
        "1 gap longer than 10 s, together 12 s (4.0 % of \"before 1\"), not bridged; the longest, "
        "12 s from 2026-06-14T12:01:00Z to 2026-06-14T12:01:12Z, ends in this line");

  add_gap(told.add("before 2", 300).stretch, 120, 18, 421);
  notes = told.notes();
  REQUIRE(notes.size() == 1);
  check(notes[0], "L23", 5, 421,
        "2 gaps longer than 10 s, together 30 s (5.0 % of 2 stretches), not bridged; the longest, "
        "18 s from 2026-06-14T12:02:00Z to 2026-06-14T12:02:18Z, ends in this line");
}

TEST_CASE("analysis notes: each kind of fall of the counter at the first one") {
  Told told;
  told.whole.counter = counter_of(36'000.0);
  told.whole.counter->resets = 1;
  told.falls.reset = CounterFall{{0, 31}, 7200.0, 0.0};
  std::vector<Diagnostic> notes = told.notes();
  REQUIRE(notes.size() == 1);
  check(notes[0], "L24", 4, 31,
        "the energy counter falls from 2.000 Wh to 0.000 Wh: taken for a reset, after which it "
        "counts from 0");
  REQUIRE(notes[0].hints.size() == 1);
  CHECK_THAT(notes[0].hints[0], !Contains("10000"));
  told.whole.counter->resets = 2;
  CHECK_THAT(told.notes()[0].message, Contains("to 0.000 Wh, the first of 2 resets: taken for"));
  told.whole.counter->wraps = 1;
  told.falls.wrap = CounterFall{{1, 41}, 7200.0, 0.0};
  told.whole.counter->steps_back = 3;
  told.whole.counter->stepped_back = Energy::from_si(1800.0);
  told.falls.back = CounterFall{{0, 21}, 7200.0, 7164.0};
  notes = told.notes();
  REQUIRE(notes.size() == 3);
  check(notes[1], "L24", 5, 41,
        "the energy counter falls from 2.000 Wh to 0.000 Wh: taken for a wrap-around");
  check(notes[2], "L24", 4, 21,
        "the energy counter steps back from 2.000 Wh to 1.990 Wh, the first of 3 steps back, "
        "0.500 Wh together: nothing is counted for them");
}

TEST_CASE("analysis notes: a load that clips is told of the whole or of stretches") {
  Told told;
  told.add("before 1", 10);
  const LogClipping met{Power::from_si(45.0), Irradiance::from_si(612.0),
                        Irradiance::from_si(905.0), 321};
  told.cut.stretches[0].stretch.clipping = met;
  std::vector<Diagnostic> notes = told.notes();
  REQUIRE(notes.size() == 1);
  check(notes[0], "L25", 5, 10,
        "power in \"before 1\" stays near 45.0 W while irradiance rises from 612 to 905 W/m2 (321 "
        "rows): the load sets it, not the panel");
  told.whole.clipping_beside = met;
  notes = told.notes();
  REQUIRE(notes.size() == 1);
  check(notes[0], "L25", 4, 0,
        "power beside stays near 45.0 W while irradiance rises from 612 to 905 W/m2 (321 rows): "
        "the load sets it, not the panel");
}

TEST_CASE("analysis notes: counter and integral over the same time may differ by 2 % or a step") {
  Told told;
  const auto codes = [&](const CounterReading& counter) {
    told.whole.counter = counter;
    return told.notes().size();
  };
  told.whole.energy = Energy::from_si(1e6);
  CHECK(codes(counter_of(1.0199e6)) == 0);
  CHECK(codes(counter_of(1.0201e6)) == 1);
  CHECK(codes(counter_of(0.981e6)) == 0);
  CHECK(codes(counter_of(0.979e6)) == 1);
  CHECK(codes(counter_of(1.5e6, 0.5e6)) == 0);
  CHECK(codes(counter_of(1.1e6, 0.0, 1.2e5)) == 0);
  told.whole.bridged_s = 0.0;
  CHECK(codes(counter_of(2e6)) == 0);
  told.whole.bridged_s = 3600.0;
  told.whole.counter = counter_of(1.25e6);
  const std::vector<Diagnostic> notes = told.notes();
  REQUIRE(notes.size() == 1);
  check(notes[0], "L26", 4, 0,
        "the energy counter says 347.222 Wh, the integral of power over the same time 277.778 Wh: "
        "the counter shows 25 % more");
  told.whole.counter = counter_of(0.75e6);
  CHECK_THAT(told.notes()[0].message, Contains("277.778 Wh: the counter shows 25 % less"));
}

TEST_CASE("analysis notes: a stretch whose counter disagrees when the whole does not") {
  Told told;
  told.whole.counter = counter_of(36'000.0);
  CutStretch& one = told.add("after 1", 12);
  one.stretch.energy = Energy::from_si(72'000.0);
  one.stretch.counter = counter_of(36'000.0);
  const std::vector<Diagnostic> notes = told.notes();
  REQUIRE(notes.size() == 1);
  CHECK(notes[0].code == "L26");
  CHECK(notes[0].where.line == 12);
  CHECK_THAT(notes[0].message, Contains("10.000 Wh in \"after 1\"") && Contains("50 %"));
}

TEST_CASE("analysis notes: spans outside the log are told where they are stated") {
  Told told;
  const SourceSpan stated{2, 17, 5, 3};
  told.cut.remarks.without_rows = {{"morning", noon - 7200 * second, noon - 3600 * second, stated}};
  told.cut.remarks.beyond = {{{"noon", noon, noon + 5400 * second, stated}, 90.0, 1800.0},
                             {{"late", noon, noon + 5400 * second, stated}, 0.0, 1800.0}};
  const std::vector<Diagnostic> notes = told.notes();
  REQUIRE(notes.size() == 3);
  check(notes[0], "L27", 2, 17,
        "\"morning\" has no rows from 2026-06-14T10:00:00Z to 2026-06-14T11:00:00Z: the log runs "
        "from 2026-06-14T12:00:00Z to 2026-06-14T13:00:00Z");
  CHECK_THAT(notes[1].message, Contains("\"noon\" begins 1 min 30 s before and ends 30 min after "
                                        "the log: the log runs"));
  CHECK_THAT(notes[2].message, Contains("\"late\" ends 30 min after the log"));
  told.whole.rows = 0;
  CHECK_THAT(told.notes()[0].message, Contains("the log has none"));
}

TEST_CASE("analysis notes: markers that come back") {
  Told told;
  told.cut.remarks.returns = {{"before 1", "before 1 (2)", {0, 99}}};
  const std::vector<Diagnostic> notes = told.notes();
  REQUIRE(notes.size() == 1);
  check(notes[0], "L28", 4, 99,
        "marker \"before 1\" comes back after other rows: this is another stretch, named \"before "
        "1 (2)\"");
}

TEST_CASE("analysis notes: of many markers that come back twenty are told and the rest counted") {
  Told told;
  for (int line = 1; line <= 5000; ++line)
    told.cut.remarks.returns.push_back({"7", "7 (2)", {0, line}});
  std::vector<Diagnostic> notes = told.notes();
  REQUIRE(notes.size() == 21);
  check(notes[20], "L28", 4, 5000, "and 4980 more markers that come back, the last in this line");
  told.cut.remarks.returns.resize(21);
  check(told.notes().at(20), "L28", 4, 21,
        "and 1 more marker that comes back, the last in this line");
  told.cut.remarks.returns.resize(20);
  CHECK(told.notes().size() == 20);
}

TEST_CASE("analysis notes: stretches of few rows") {
  Told told;
  told.add("x", 8, 20);
  CHECK(told.notes().empty());
  told.add("y", 9, 19);
  CutStretch& removed = told.add("z", 10, 300);
  // Found by review: rows that the rule could not judge were said to be not steady.
  removed.stretch.steady = SteadyTally{};
  removed.stretch.steady->rows_irradiance = 60;
  removed.stretch.steady->rows_broken = 240;
  removed.stretch.power_series.count = 0;
  CutStretch& one = told.add("w", 11, 1);
  one.stretch.steady = SteadyTally{};
  const std::vector<Diagnostic> notes = told.notes();
  REQUIRE(notes.size() == 3);
  check(notes[0], "L29", 5, 9,
        "only 19 rows of \"y\" count: fewer than 20 do not show how much their mean scatters");
  check(
      notes[1], "L29", 5, 10,
      "no row of \"z\" counts; 300 rows were removed: 60 since irradiance changed, 240 in windows "
      "with a gap, cut short, or with too few rows that have irradiance");
  check(notes[2], "L29", 5, 11,
        "only 1 row of \"w\" counts: fewer than 20 do not show how much their mean scatters");
}

TEST_CASE("analysis notes: rows that are not kept one by one") {
  Told told;
  CutStretch& one = told.add("before 1", 8);
  one.complete = false;
  one.stretch.kept.resize(120);
  told.complete = false;
  const std::vector<Diagnostic> notes = told.notes();
  REQUIRE(notes.size() == 2);
  check(notes[0], "L29", 5, 8,
        "only 120 of the 300 rows in \"before 1\" are kept one by one: 500 are the most; all of "
        "them are in its sums and means");
  check(notes[1], "L29", 4, 0,
        "only 0 of the 3601 rows are kept one by one: 500 are the most; all of them are in its "
        "sums and means");
}

TEST_CASE("analysis notes: plateaus that are too short are counted in one message") {
  Told told;
  told.question.cut.kind = LogCut::Kind::plateaus;
  told.cut.remarks.too_short = 2;
  told.cut.remarks.longest_too_short_s = 61.0;
  told.cut.remarks.first_too_short = {0, 40};
  std::vector<Diagnostic> notes = told.notes();
  REQUIRE(notes.size() == 1);
  check(notes[0], "L29", 4, 40,
        "2 stretches with the load on are left out, the first from this line: less than 2 min of "
        "steady time, 1 min 1 s at most");
  told.cut.remarks.too_short = 1;
  CHECK_THAT(told.notes()[0].message, Contains("1 stretch with the load on is left out"));
}

TEST_CASE("analysis notes: too many stretches are an error") {
  Told told;
  told.question.cut.kind = LogCut::Kind::markers;
  told.cut.remarks.too_many = 1;
  told.cut.remarks.first_too_many = {0, 5000};
  const std::vector<Diagnostic> notes = told.notes();
  REQUIRE(notes.size() == 1);
  CHECK(notes[0].severity == Severity::error);
  CHECK(notes[0].code == "L32");
  CHECK(notes[0].where.line == 5000);
  CHECK(notes[0].message ==
        "more than 4096 stretches: 1 more stretch from this line on is not measured");
}
