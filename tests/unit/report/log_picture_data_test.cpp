#include "report/log_picture_data.hpp"

#include <cmath>

#include "support/catch.hpp"
#include "support/log_answers.hpp"

using namespace hailwright;
using namespace hailwright::testing;
using detail::DrawnLog;

namespace {

LogStretch between(const char* name, int from_min, int to_min) {
  LogStretch s;
  s.name = name;
  s.rows = 2;
  s.from_us = morning_us + from_min * 60'000'000LL;
  s.to_us = morning_us + to_min * 60'000'000LL;
  return s;
}

}  // namespace

TEST_CASE("log_picture_data: fewer points keep rows and means and extremes") {
  const LogFindings f = day_findings();
  const DrawnLog all = detail::drawn_log(f, 1024);
  const DrawnLog few = detail::drawn_log(f, 60);
  CHECK(all.points.size() == 600);
  CHECK(few.points.size() == 60);
  CHECK(few.step_s == 600.0);
  CHECK(few.seconds() == all.seconds());
  const auto sums = [](const DrawnLog& log) {
    double rows = 0.0, joules = 0.0;
    for (const LogTrace::Point& p : log.points) {
      if (p.rows == 0) continue;
      rows += static_cast<double>(p.rows);
      joules += static_cast<double>(p.rows) * p.power_mean;
    }
    return std::pair(rows, joules);
  };
  CHECK(sums(few).first == sums(all).first);
  CHECK_THAT(sums(few).second, WithinRel(sums(all).second, 1e-12));
  CHECK(detail::power_ends(few)->most == detail::power_ends(all)->most);
  CHECK(detail::power_ends(few)->least == detail::power_ends(all)->least);
}

TEST_CASE("log_picture_data: blank columns stay blank") {
  LogFindings f = day_findings();
  const DrawnLog drawn = detail::drawn_log(f, 60);
  CHECK(drawn.has_power());
  CHECK(drawn.has_irradiance());
  CHECK_FALSE(drawn.has_beside());
  for (LogTrace::Point& p : f.trace.points)
    p.power_least = p.power_mean = p.power_most = std::nan("");
  CHECK_FALSE(detail::drawn_log(f, 60).has_power());
}

TEST_CASE("log_picture_data: gaps are those that the energy leaves out") {
  LogFindings f = day_findings();
  const DrawnLog drawn = detail::drawn_log(f, 512);
  REQUIRE(drawn.gaps.size() == 1);
  CHECK(drawn.gaps[0].low == 390 * 60.0);
  CHECK(drawn.gaps[0].high == 400 * 60.0);
  CHECK(drawn.in_gap(395 * 60.0));
  CHECK_FALSE(drawn.in_gap(405 * 60.0));
  // More gaps than the findings name: what has no rows for long is one.
  f.whole.gaps = 12;
  f.trace.points[100].rows = 0;
  CHECK(detail::drawn_log(f, 512).gaps.size() == 2);
  // A log that is slower than its points has none between its rows.
  f.usual_step_s = 3600.0;
  CHECK(detail::drawn_log(f, 512).gaps.size() == 1);
}

TEST_CASE("log_picture_data: an axis of power holds both panels") {
  LogFindings f = day_findings();
  CHECK_FALSE(detail::beside_ends(detail::drawn_log(f, 60)));
  CHECK(detail::both_power_ends(detail::drawn_log(f, 60))->most ==
        detail::power_ends(detail::drawn_log(f, 60))->most);
  f.trace.points[7].beside_mean = 250.0;
  f.trace.points[8].beside_mean = -3.0;
  const DrawnLog drawn = detail::drawn_log(f, 600);
  CHECK(detail::both_power_ends(drawn)->most == 250.0);
  CHECK(detail::both_power_ends(drawn)->least == -3.0);
  CHECK(detail::power_ends(drawn)->most < 100.0);
}

TEST_CASE("log_picture_data: stretches that overlap lie in lanes of their own") {
  LogFindings f = day_findings();
  f.stretches = {between("c", 200, 300), between("a", 0, 120), between("b", 60, 180),
                 between("", 120, 130)};
  const auto lanes = detail::stretch_lanes(f, detail::drawn_log(f, 512));
  REQUIRE(lanes.size() == 4);
  CHECK(lanes[0].stretch == 1);
  CHECK(lanes[1].lane == 1);
  CHECK(lanes[2].lane == 0);
  CHECK(lanes[3].lane == 0);
  CHECK(detail::stretch_name(f, 3) == "4");
  f.stretches[1].rows = 0;
  CHECK(detail::stretch_lanes(f, detail::drawn_log(f, 512)).size() == 3);
}
