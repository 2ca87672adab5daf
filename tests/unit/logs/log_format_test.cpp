#include "hailwright/logs/log_format.hpp"

#include <set>
#include <string_view>

#include "hailwright/core/contract.hpp"
#include "support/catch.hpp"

using namespace hailwright;

TEST_CASE("log format: every role has a word of its own") {
  std::set<std::string_view> words;
  for (std::size_t i = 0; i < log_roles; ++i)
    CHECK(words.insert(word_of(static_cast<LogRole>(i))).second);
  CHECK(word_of(LogRole::power_beside) == "power_beside");
  CHECK(word_of(LogRole::marker) == "marker");
  CHECK_THROWS_AS(word_of(static_cast<LogRole>(log_roles)), BugError);
}

TEST_CASE("log format: what the numbers of a role are") {
  CHECK(measure_of(LogRole::power) == Measure::power);
  CHECK(measure_of(LogRole::power_beside) == Measure::power);
  CHECK(measure_of(LogRole::voltage) == Measure::voltage);
  CHECK(measure_of(LogRole::current) == Measure::current);
  CHECK(measure_of(LogRole::irradiance) == Measure::irradiance);
  CHECK(measure_of(LogRole::temperature_beside) == Measure::temperature);
  CHECK(measure_of(LogRole::energy) == Measure::energy);
  for (const LogRole role : {LogRole::time, LogRole::date, LogRole::clock, LogRole::marker})
    CHECK_FALSE(measure_of(role));
  CHECK_THROWS_AS(measure_of(static_cast<LogRole>(99)), BugError);
}

TEST_CASE("log format: the column of a role") {
  LogShape shape;
  shape.used = {{LogRole::time, 0, {}, "time"}, {LogRole::power, 3, {}, "P"}};
  REQUIRE(shape.column(LogRole::power) != nullptr);
  CHECK(shape.column(LogRole::power)->place == 3);
  CHECK(shape.column(LogRole::energy) == nullptr);
}
