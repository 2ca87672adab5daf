#include <algorithm>
#include <cmath>

#include "hailwright/report/compose_readings.hpp"
#include "report/text_layout.hpp"
#include "support/catch.hpp"
#include "support/log_answers.hpp"

using namespace hailwright;
using namespace hailwright::testing;

namespace {

/// Ten hours in ten points, power 0 to 90 W, irradiance ten times that.
LogFindings rising() {
  LogFindings f;
  f.trace.from_us = morning_us;
  f.trace.step_s = 3600.0;
  f.usual_step_s = 1.0;
  for (int i = 0; i < 10; ++i)
    f.trace.points.push_back({3600, 10.0 * i, 10.0 * i, 10.0 * i, 100.0 * i, std::nan("")});
  return f;
}

std::string joined(const std::vector<std::string>& lines) {
  std::string all;
  for (const std::string& line : lines)
    all += line + '\n';
  return all;
}

}  // namespace

TEST_CASE("log_sketch: heights by eighths and the times below") {
  LogFindings f = rising();
  LogStretch s;
  s.name = "before 1";
  s.rows = 9;
  s.from_us = morning_us;
  s.to_us = morning_us + 35'999'000'000LL;
  f.stretches = {s};
  // By hand: of 24 eighths i / 9 x 24, of 16 likewise; the lowest block where there is none.
  CHECK(joined(log_sketch(f, "+02:00", 72)) == "         power\n"
                                               "  90.0 W        ▃▅█\n"
                                               "             ▃▅████\n"
                                               "       0 ▁▃▅███████\n"
                                               "         irradiance\n"
                                               "900 W/m2      ▁▃▄▆█\n"
                                               "       0 ▁▂▄▅▇█████\n"
                                               "         ├before 1┤\n"
                                               "         06:00  16:00\n");
}

TEST_CASE("log_sketch: a gap shows a point and a slow log has none") {
  LogFindings f = rising();
  f.trace.points[4].rows = 0;
  f.trace.points[4].power_mean = std::nan("");
  CHECK_THAT(log_sketch(f, "+02:00", 72)[3], Contains("▁▃▅███████"));
  CHECK_THAT(joined(log_sketch(f, "+02:00", 72)), !Contains("no rows"));
  f.whole.gaps = 1;
  f.whole.longest_gaps = {
      {morning_us + 4 * 3'600'000'000LL, morning_us + 5 * 3'600'000'000LL, 0, 9}};
  CHECK_THAT(log_sketch(f, "+02:00", 72)[3], Contains("▁▃▅█·█████"));
  CHECK(log_sketch(f, "+02:00", 72).back() == "         · no rows");
}

TEST_CASE("log_sketch: short stretches show their number and those without room are counted") {
  LogFindings f = day_findings();
  const std::string two = joined(log_sketch(f, "+02:00", 72));
  CHECK_THAT(two, Contains("1┤") && Contains("2┤") && !Contains("more"));
  const LogStretch one = f.stretches[0];
  for (int i = 0; i < 5; ++i)
    f.stretches.push_back(one);
  CHECK_THAT(joined(log_sketch(f, "+02:00", 72)), Contains("and 3 more, too near to be shown"));
}

TEST_CASE("log_sketch: over days the ends carry their day") {
  LogFindings f = rising();
  f.trace.step_s = 36'000.0;
  CHECK_THAT(log_sketch(f, "+02:00", 72).back(), Contains("06-14 06:00  06-18 10:00"));
}

TEST_CASE("log_sketch: nothing to draw gives no lines") {
  LogFindings f = rising();
  CHECK(log_sketch(f, "+02:00", 12).empty());
  for (LogTrace::Point& p : f.trace.points)
    p.power_least = p.power_most = p.power_mean = p.irradiance_mean = std::nan("");
  CHECK(log_sketch(f, "+02:00", 72).empty());
  f.trace.points.clear();
  CHECK(log_sketch(f, "+02:00", 72).empty());
}

TEST_CASE("log_sketch: a name in it steers no terminal") {
  LogFindings f = rising();
  LogStretch s = day_findings().stretches[0];
  s.name = "a\x1b[31m";
  s.from_us = morning_us;
  s.to_us = morning_us + 35'999'000'000LL;
  f.stretches = {s};
  CHECK_THAT(joined(log_sketch(f, "+02:00", 72)), !Contains("\x1b") && Contains("├─a?[31m─┤"));
}

TEST_CASE("log_sketch: no line is wider than asked for") {
  for (const LogFindings& f : {day_findings(), rising()}) {
    for (const int width : {30, 40, 72, 200}) {
      CAPTURE(width);
      for (const std::string& line : log_sketch(f, "+02:00", width))
        CHECK(detail::display_width(line) <= std::min(width, 72));
    }
  }
}
