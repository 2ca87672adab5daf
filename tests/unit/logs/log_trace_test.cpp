#include "logs/log_trace.hpp"

#include <cmath>
#include <limits>

#include "support/catch.hpp"
#include "support/log_rows.hpp"

using namespace hailwright;
using namespace hailwright::testing;
using detail::TraceDrawer;

namespace {

LogTrace trace_of(const std::vector<LogBlock>& blocks) {
  TraceDrawer drawer;
  for (const LogBlock& block : blocks)
    drawer.take(block);
  return drawer.finish();
}

bool same(double a, double b) {
  return a == b || (std::isnan(a) && std::isnan(b));
}

bool same(const LogTrace& a, const LogTrace& b) {
  if (a.from_us != b.from_us || a.step_s != b.step_s || a.points.size() != b.points.size())
    return false;
  for (std::size_t i = 0; i < a.points.size(); ++i) {
    const LogTrace::Point &p = a.points[i], &q = b.points[i];
    if (p.rows != q.rows || !same(p.power_least, q.power_least) ||
        !same(p.power_mean, q.power_mean) || !same(p.power_most, q.power_most) ||
        !same(p.irradiance_mean, q.irradiance_mean) || !same(p.beside_mean, q.beside_mean))
      return false;
  }
  return true;
}

double wave(double at_s) {
  return 50.0 + 40.0 * std::sin(at_s / 300.0) + 3.0 * std::sin(at_s);
}

}  // namespace

TEST_CASE("trace: no rows give no points") {
  const LogTrace trace = trace_of({});
  CHECK(trace.points.empty());
  CHECK(trace.step_s == 0.0);
}

TEST_CASE("trace: a short log has a point a row") {
  const LogTrace trace = trace_of({rows_by_second(600, wave)});
  REQUIRE(trace.points.size() == 600);
  CHECK(trace.step_s == 1.0);
  CHECK(trace.from_us == -500'000);
  for (std::size_t i = 0; i < 600; ++i) {
    CAPTURE(i);
    CHECK(trace.points[i].rows == 1);
    CHECK(trace.points[i].power_mean == wave(static_cast<double>(i)));
    CHECK(trace.points[i].power_least == trace.points[i].power_most);
    CHECK(std::isnan(trace.points[i].irradiance_mean));
  }
}

TEST_CASE("trace: a long log keeps within its points and loses no row and no peak") {
  LogBlock rows = rows_by_second(100'003, wave);
  rows.values[index_of(LogRole::power)][77'777] = 444.0;
  add_column(rows, LogRole::irradiance, [](double at_s) { return at_s < 5e4 ? 900.0 : 100.0; });
  const LogTrace trace = trace_of({rows});
  CHECK(trace.points.size() <= TraceDrawer::most_points);
  CHECK(trace.points.size() > TraceDrawer::most_points / 2);
  CHECK(trace.step_s == 128.0);
  std::int64_t met = 0;
  double most = 0.0, sum = 0.0, wanted = 0.0;
  for (const LogTrace::Point& point : trace.points) {
    met += point.rows;
    most = std::max(most, point.power_most);
    sum += point.power_mean * static_cast<double>(point.rows);
  }
  for (const double power : rows.column(LogRole::power))
    wanted += power;
  CHECK(met == 100'003);
  CHECK(most == 444.0);
  CHECK_THAT(sum, WithinRel(wanted, 1e-12));
  CHECK(trace.points.front().irradiance_mean == 900.0);
  CHECK(trace.points.back().irradiance_mean == 100.0);
}

TEST_CASE("trace: a gap is points without rows, a blank cell counts for nothing") {
  constexpr double nan = std::numeric_limits<double>::quiet_NaN();
  const LogTrace trace = trace_of({log_rows({{0, 5}, {1, nan}, {2, 7}, {6, 8}})});
  REQUIRE(trace.points.size() == 7);
  CHECK(trace.points[1].rows == 1);
  CHECK(std::isnan(trace.points[1].power_mean));
  CHECK(std::isnan(trace.points[1].power_least));
  CHECK(trace.points[4].rows == 0);
  CHECK(trace.points[6].power_mean == 8.0);
}

TEST_CASE("trace: rows of one time alone are one point") {
  const LogTrace trace = trace_of({log_rows({{3, 5}, {3, 7}})});
  REQUIRE(trace.points.size() == 1);
  CHECK(trace.points[0].rows == 2);
  CHECK(trace.points[0].power_mean == 6.0);
}

TEST_CASE("trace: any split of the rows gives the same bits") {
  LogBlock rows = rows_by_second(20'000, wave);
  add_column(rows, LogRole::power_beside, [](double at_s) { return 0.97 * wave(at_s); });
  RandomStream random(6, 2);
  for (std::size_t i = 0; i < rows.rows(); ++i) {  // uneven steps, gaps, blanks
    rows.time_us[i] = 1'000'000 * static_cast<std::int64_t>(i + (i > 9000 ? 4000 : 0)) +
                      static_cast<std::int64_t>(9e5 * random.uniform());
    if (random.uniform() < 0.02)
      rows.values[index_of(LogRole::power)][i] = std::numeric_limits<double>::quiet_NaN();
  }
  const LogTrace whole = trace_of({rows});
  for (int trial = 0; trial < 50; ++trial) {
    CAPTURE(trial);
    CHECK(same(trace_of(split_at_random(rows, 1 + trial, random)), whole));
  }
}
