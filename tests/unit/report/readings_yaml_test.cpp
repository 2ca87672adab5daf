#include "hailwright/report/compose_readings.hpp"
#include "support/catch.hpp"
#include "support/log_answers.hpp"

using namespace hailwright;
using namespace hailwright::testing;

namespace {

std::string pasted(const ReadingsAnswer& a) {
  std::string all;
  for (const std::string& line : readings_yaml(a))
    all += line + '\n';
  return all;
}

}  // namespace

TEST_CASE("readings_yaml: which file standard input was is left to fill in") {
  ReadingsAnswer a = day_answer();
  a.files = {"-"};
  CHECK_THAT(pasted(a), Contains("  log: ???\n"));
  a.files = {"day.csv", "-"};
  CHECK_THAT(pasted(a), Contains("  log: [day.csv, ???]\n"));
}

TEST_CASE("readings_yaml: without a stretch there is no block that would take the whole log") {
  ReadingsAnswer a = day_answer();
  REQUIRE(a.question.cut.kind == LogCut::Kind::plateaus);
  a.findings.stretches.clear();
  CHECK(pasted(a).starts_with("# No block: no stretch with the load on was found"));
  CHECK_THAT(pasted(a), !Contains("log:"));
}

TEST_CASE("readings_yaml: a second log that a record cannot read is named") {
  ReadingsAnswer a = day_answer();
  CHECK_THAT(pasted(a), !Contains("Left out"));
  a.files_beside = {"control\n.csv"};
  CHECK(pasted(a).starts_with(
      "# Left out: the second log, \"control\\x0A.csv\". A record reads a second panel from "
      "columns of the same log.\nbefore:\n"));
}

TEST_CASE("readings_yaml: plateaus are fixed by their times") {
  CHECK(pasted(day_answer()) ==
        "before:\n"
        "  log: day.csv\n"
        "  columns:\n"
        "    time: time\n"
        "    power: {name: \"P [W]\", unit: W}\n"
        "    irradiance: {name: \"G [W/m2]\", unit: W/m2}\n"
        "    temperature: {name: \"T [degC]\", unit: degC}\n"
        "    energy: {name: \"E [Wh]\", unit: Wh}\n"
        "  separator: comma\n"
        "  decimal: point\n"
        "  dates: year first\n"
        "  zone: \"+02:00\"\n"
        "  longest_gap: 10 s\n"
        "  tolerate: 3\n"
        "  load_on: 1 W\n"
        "  steady: {window: 60 s, irradiance_change: 2 %, ramp: 1 %, temperature_change: 1 K}\n"
        "  setups:\n"
        "    - {name: before 1, from: 2026-06-14T08:00:00+02:00, to: 2026-06-14T08:12:00+02:00}\n"
        "    - {name: before 2, from: 2026-06-14T13:00:00+02:00, to: 2026-06-14T13:11:00+02:00}\n");
}

TEST_CASE("readings_yaml: names of set-ups are of their stage and sessions have free ones") {
  ReadingsAnswer a = day_answer();
  a.place = LogPlace::after;
  CHECK_THAT(pasted(a),
             Contains("after:\n") && Contains("{name: after 1,") && Contains("{name: after 2,"));
  a.place = LogPlace::sessions;
  a.findings.stretches[1].name.clear();
  CHECK_THAT(pasted(a), Contains("sessions:\n") && Contains("  times:\n") &&
                            Contains("{name: before 1,") && Contains("{name: session 2,"));
}

TEST_CASE("readings_yaml: times as given and markers as a rule and the whole as one") {
  ReadingsAnswer a = day_answer();
  a.question.cut.kind = LogCut::Kind::times;
  a.question.cut.spans = {{"before 1", morning_us, morning_us + 1'500'000, {}}};
  CHECK_THAT(pasted(a), Contains("{name: before 1, from: 2026-06-14T06:00:00+02:00, to: "
                                 "2026-06-14T06:00:01.5"));
  a.question.cut.kind = LogCut::Kind::markers;
  CHECK_THAT(pasted(a), Contains("  cut: markers\n") && !Contains("setups"));
  a.question.cut.kind = LogCut::Kind::whole;
  CHECK_THAT(pasted(a),
             Contains("  setups:\n") && Contains("{name: before 1, from: 2026-06-14T06"));
  a.place = LogPlace::sessions;
  CHECK_THAT(pasted(a), !Contains("times:") && !Contains("setups:"));
}

TEST_CASE("readings_yaml: how the file is built is written as it was recognised") {
  ReadingsAnswer a = day_answer();
  a.files = {"a b: c.csv", "second.csv"};
  a.shape.separator = ';';
  a.shape.decimal = ',';
  a.shape.stamp.dates = DateOrder::day_first;
  a.question.rules.steady.reset();
  a.question.rules.counter_wraps_at = Energy::from_si(3600.0 * 9999.9);
  a.tally.unreadable = a.tally.out_of_order = 0;
  CHECK_THAT(pasted(a), Contains("  log: [\"a b: c.csv\", second.csv]\n") &&
                            Contains("separator: semicolon\n") && Contains("decimal: comma\n") &&
                            Contains("dates: day first\n") && Contains("steady: no\n") &&
                            Contains("wraps_at: 9999.9 Wh\n") && !Contains("tolerate"));
  a.shape.stamp.kind = StampForm::Kind::unix_seconds;
  a.stated.zone.clear();
  CHECK_THAT(pasted(a), !Contains("dates") && Contains("zone: UTC"));
  a.place = LogPlace::sessions;
  CHECK_THAT(pasted(a), !Contains("zone"));
}
