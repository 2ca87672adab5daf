#include "logs/log_follower.hpp"

#include <cmath>

#include "support/catch.hpp"
#include "support/log_rows.hpp"

using namespace hailwright;
using namespace hailwright::testing;
using detail::LogFollower;

namespace {

constexpr std::int64_t second = 1'000'000;
constexpr double unknown = std::numeric_limits<double>::quiet_NaN();

LogFollower following(std::vector<LogBlock> blocks, double offset_s = 0.0) {
  return {blocks_in_turn(std::move(blocks)), std::llround(offset_s * 1e6), 10 * second};
}

}  // namespace

TEST_CASE("follower: a straight line between two rows, and nothing beyond the ends") {
  LogFollower log = following({log_rows({{10, 100}, {14, 120}})});
  CHECK(log.next_us() == 10 * second);
  CHECK(std::isnan(log.at(9 * second).power));
  CHECK(log.at(10 * second).power == 100.0);
  CHECK(log.at(11 * second).power == 105.0);
  CHECK(log.at(11 * second).power == 105.0);
  CHECK(log.at(13'500'000).power == 117.5);
  CHECK(log.next_us() == 14 * second);
  CHECK(log.at(14 * second).power == 120.0);
  CHECK_FALSE(log.next_us().has_value());
  CHECK(std::isnan(log.at(14 * second + 1).power));
}

TEST_CASE("follower: an offset is added to the stamps") {
  LogFollower log = following({log_rows({{10, 100}, {14, 120}})}, 7.0);
  CHECK(log.next_us() == 17 * second);
  CHECK(log.at(18 * second).power == 105.0);
}

TEST_CASE("follower: no line over a gap or to a blank cell") {
  LogFollower log =
      following({log_rows({{0, 1}, {10, 2}, {20.000001, 3}, {21, unknown}, {22, 5}})});
  CHECK(log.at(5 * second).power == 1.5);
  CHECK(std::isnan(log.at(15 * second).power));
  CHECK(std::isnan(log.at(20'500'000).power));
  CHECK(std::isnan(log.at(21 * second).power));
  CHECK(log.at(22 * second).power == 5.0);
}

TEST_CASE("follower: of rows of one time the last stands before what follows") {
  LogFollower log = following({log_rows({{0, 1}, {2, 8}, {2, 4}, {4, 6}})});
  CHECK(log.at(second).power == 4.5);
  CHECK(log.at(2 * second).power == 4.0);
  CHECK(log.at(3 * second).power == 5.0);
}

TEST_CASE("follower: temperatures too, where the log has them, and blocks without rows") {
  LogBlock rows = rows_by_second(4, [](double at_s) { return at_s; });
  CHECK(std::isnan(following({rows}).at(second).temperature));
  add_column(rows, LogRole::temperature, [](double at_s) { return 300.0 + at_s; });
  LogFollower log = following(split_at(rows, {0, 2, 2}));
  CHECK_FALSE(log.has_temperature());
  CHECK(log.at(1'500'000).temperature == 301.5);
  CHECK(log.has_temperature());
}

TEST_CASE("follower: a log without rows knows nothing") {
  LogFollower log = following({});
  CHECK_FALSE(log.next_us().has_value());
  CHECK(std::isnan(log.at(0).power));
}
