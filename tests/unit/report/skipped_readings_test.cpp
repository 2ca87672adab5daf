#include "report/skipped_readings.hpp"

#include "report/judgement_done.hpp"
#include "support/catch.hpp"
#include "support/logged_test.hpp"

using namespace hailwright;
using namespace hailwright::testing;

TEST_CASE("skipped readings: those of logs by set-up and reason") {
  Test test = logged_test();
  const std::vector<bool> from_log = setups_from_logs(test.record);
  REQUIRE(from_log.size() == test.record.setups.size());
  CHECK(from_log[test.record.logs[0].setups[0]]);
  CHECK_FALSE(from_log.back());
  std::vector<SkippedReadings> skipped = skipped_of_logs(test.record);
  REQUIRE(skipped.size() == 1);
  CHECK(test.record.setups[skipped[0].setup].name == "before 1");
  CHECK(skipped[0].reason == "irradiance changed");
  CHECK(skipped[0].count == 2);
  // Another reason in the same set-up is another entry, the same one in another set-up too.
  for (Reading& r : test.record.readings) {
    if (r.skip.empty() && r.setup == skipped[0].setup) r.skip = "temperature changed";
    if (r.setup == test.record.logs[0].setups[1]) r.skip = "irradiance changed";
  }
  skipped = skipped_of_logs(test.record);
  REQUIRE(skipped.size() == 3);
  CHECK(skipped[1].reason == "temperature changed");
  CHECK(test.record.setups[skipped[2].setup].name == "before 2");
}

TEST_CASE("skipped readings: a line for each group of a log and one for each typed reading") {
  Test test = logged_test();
  test.record.readings.back().skip = "cloud";
  const std::vector<std::string> lines = skipped_lines(test, SourceSet());
  REQUIRE(lines.size() == 2);
  CHECK_THAT(lines[0], Contains("reading of the") && Contains("cloud"));
  CHECK(lines[1] == "before 1: 2 readings of the log, irradiance changed");
}
