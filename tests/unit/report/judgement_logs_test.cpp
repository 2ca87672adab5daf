#include "report/judgement_logs.hpp"

#include <algorithm>

#include "hailwright/report/compose.hpp"
#include "hailwright/report/render.hpp"
#include "support/catch.hpp"
#include "support/logged_test.hpp"
#include "support/test_builder.hpp"

using namespace hailwright;
using namespace hailwright::testing;

namespace {

std::vector<std::string> lines_of(const Facts& facts, const std::string& label) {
  std::vector<std::string> lines;
  for (const Fact& f : facts.items) {
    if (f.label != label) continue;
    for (const Runs& line : f.lines)
      lines.push_back(line.at(0).text);
  }
  return lines;
}

bool has(const std::vector<std::string>& lines, const std::string& part) {
  return std::any_of(lines.begin(), lines.end(),
                     [&](const std::string& line) { return line.find(part) != std::string::npos; });
}

}  // namespace

TEST_CASE("judgement logs: a record without logs says nothing of them") {
  const Test test = TestBuilder().build();
  CHECK(log_facts(test, assess(test), Audience::reviewer).items.empty());
}

TEST_CASE("judgement logs: readings by log and sessions by name") {
  const Test test = logged_test();
  const Facts facts = log_facts(test, assess(test), Audience::reviewer);
  const auto log = lines_of(facts, "readings from day.csv");
  REQUIRE(log.size() == 4);
  CHECK_THAT(log[0], Contains("2 set-ups with 1382 rows, cut by the times in the record"));
  CHECK_THAT(log[1], Contains("steady rule: windows of 1 min"));
  CHECK_THAT(log[2], Contains("35401 rows used"));
  CHECK(lines_of(facts, "put up anew").size() == 1);
  CHECK(has(lines_of(facts, "session morning"), "second panel over first"));
  CHECK_FALSE(has(lines_of(facts, "session morning"), "the counter gives"));
  CHECK(lines_of(facts, "session empty") == std::vector<std::string>{"no rows in the log"});
  CHECK(has(lines_of(facts, "read for them"), "week.csv: 35401 rows used"));
}

TEST_CASE("judgement logs: a reader gets the counter too") {
  Test test = logged_test();
  test.protocol.tools.meter.error.reset();
  const Assessment a = assess(test);
  const Facts reader = log_facts(test, a, Audience::reader);
  CHECK(has(lines_of(reader, "session morning"), "the counter gives"));
  CHECK_FALSE(lines_of(reader, "assumed for them").empty());
  CHECK(has(lines_of(reader, "assumed for them"), "Write instead"));
  CHECK(has(lines_of(log_facts(test, a, Audience::reviewer), "assumed for them"), "Write instead"));
}

TEST_CASE("judgement logs: load that clips inside a set-up is told with its name") {
  Test test = logged_test();
  LogFindings& findings = test.record.logs[0].findings;
  findings.stretches[1].clipping = findings.whole.clipping;
  CHECK(has(lines_of(log_facts(test, assess(test), Audience::reader), "readings from day.csv"),
            "before 2: from 900 W/m2 on the power stays at 81.0 W"));
}

TEST_CASE("judgement logs: they stand between what changed and what could have been seen") {
  const Test test = logged_test();
  const Assessment a = assess(test);
  const std::string s = render_console(compose_judgement({{&test, &a}}, SourceSet()), {});
  CHECK(s.find("What changed") < s.find("From the loggers"));
  CHECK(s.find("From the loggers") < s.find("What this test could have seen"));
  CHECK_THAT(s, Contains("2 readings of the log, irradiance changed"));
}
