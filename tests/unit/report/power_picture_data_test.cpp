#include "report/power_picture_data.hpp"

#include <cmath>

#include "hailwright/core/contract.hpp"
#include "support/catch.hpp"
#include "support/judged_power.hpp"

using namespace hailwright;
using namespace hailwright::detail;
using namespace hailwright::testing;

namespace {

PowerView viewed(const Test& test) {
  const PowerResult power = judged(test);
  REQUIRE(power.estimated());
  return view_power(test, power);
}

/// P / (G/1000) / (1 + gamma (T + 3 K G/1000 - 25 degC)), typed anew: the coefficient and the rise
/// of the cell are the defaults that the builder's panels take.
double normalised(const Reading& r, double gamma, double rise) {
  const double suns = r.irradiance.si() / 1000.0;
  return r.power.si() / suns / (1.0 + gamma * (r.temperature.celsius() + rise * suns - 25.0));
}

std::string june(int day) {
  return "2026-06-0" + std::to_string(day);
}

void add_baseline(Test& t, int setups) {
  const std::size_t first = t.record.setups.size();
  const std::vector<Reading> all = t.record.readings;
  for (int k = 0; k < setups; ++k) {
    Setup s = t.record.setups.front();
    s.stage = {StageKind::baseline, 0};
    s.number = k + 1;
    t.record.setups.push_back(s);
    for (Reading r : all) {
      if (r.setup != static_cast<std::size_t>(k)) continue;
      r.setup = first + static_cast<std::size_t>(k);
      t.record.readings.push_back(r);
    }
  }
}

}  // namespace

TEST_CASE("power_picture_data: against a control the mean before is 100 per cent") {
  const Test test = TestBuilder().loss(0.04).build();
  const PowerView view = viewed(test);
  CHECK(view.per_cent);
  CHECK_FALSE(view.siblings);
  REQUIRE(view.groups.size() == 2);
  CHECK(view.groups[0].title == "before");
  CHECK_FALSE(view.groups[0].after);
  CHECK(view.groups[1].title == "after");
  CHECK(view.groups[1].after);
  CHECK(view.columns() == 8);
  CHECK(view.readings() == 24);
  CHECK_THAT(view.from, WithinAbs(100.0, 1e-9));
  CHECK_THAT(view.to, WithinAbs(96.0, 1e-6));
  CHECK_THAT(view.limit, WithinAbs(95.0, 1e-9));
  // The builder's control has 81 W, its struck panel 80 W times the scatter: the round's ratio over
  // the mean of all is that scatter.
  double product = 1.0;
  for (const PowerColumn& c : view.groups[0].columns) {
    REQUIRE(c.readings.size() == 3);
    for (const double r : c.readings)
      CHECK_THAT(r, WithinRel(c.mean, 1e-9));
    product *= c.mean / 100.0;
  }
  CHECK_THAT(product, WithinAbs(1.0, 1e-9));
}

TEST_CASE("power_picture_data: the interval is that of the change and decides as the loss does") {
  const Test test = TestBuilder().loss(0.04).build();
  const PowerResult power = judged(test);
  const PowerView view = view_power(test, power);
  CHECK_THAT(view.to_interval.low, WithinAbs(100.0 * (1.0 - power.estimate.high().si()), 1e-9));
  CHECK_THAT(view.to_interval.high, WithinAbs(100.0 * (1.0 - power.estimate.low().si()), 1e-9));
  CHECK((view.to_interval.high < view.from) == power.is_real());
  CHECK((view.to_interval.high < view.limit) == power.is_beyond());
}

TEST_CASE("power_picture_data: a panel against itself is shown in watts") {
  const Test test = TestBuilder().same_panel().loss(0.02).build();
  const PowerView view = viewed(test);
  CHECK_FALSE(view.per_cent);
  // Of the first set-up, by the formula typed anew; the panel has no coefficient of its own, so
  // compare the ratio of two readings at one temperature and nearly one sun.
  const Reading& a = test.record.readings[0];
  const Reading& b = test.record.readings[1];
  const double gamma = -0.0035;
  const auto& drawn = view.groups[0].columns[0].readings;
  CHECK_THAT(drawn[1] / drawn[0],
             WithinRel(normalised(b, gamma, 3.0) / normalised(a, gamma, 3.0), 1e-4));
  CHECK(drawn[0] > 80.0);
  CHECK(drawn[0] < 110.0);
  CHECK_THAT(view.to / view.from, WithinAbs(0.98, 1e-6));
}

TEST_CASE("power_picture_data: siblings are shown unit by unit and the struck panel last") {
  const Test test = TestBuilder().siblings(4, 0.01).loss(0.03).build();
  const PowerView view = viewed(test);
  CHECK(view.siblings);
  REQUIRE(view.groups.size() == 5);
  CHECK(view.groups[0].title == "unit U1");
  CHECK(view.groups[3].title == "unit U4");
  CHECK(view.groups[4].title == "panel");
  CHECK(view.groups[4].after);
  double logs = 0.0;
  for (std::size_t u = 0; u < 4; ++u) {
    double own = 0.0;
    for (const PowerColumn& c : view.groups[u].columns)
      own += std::log(c.mean) / static_cast<double>(view.groups[u].columns.size());
    logs += own / 4.0;
  }
  CHECK_THAT(view.from, WithinRel(std::exp(logs), 1e-9));
}

TEST_CASE("power_picture_data: a baseline stands where it belongs in time") {
  Test test = TestBuilder().build();
  add_baseline(test, 3);
  PowerView view = viewed(test);
  REQUIRE(view.groups.size() == 3);
  CHECK(view.groups[1].title == "baseline");
  CHECK(view.one_day() == test.record.date);
  for (Setup& s : test.record.setups) {
    if (s.stage.kind == StageKind::baseline) s.date = "2026-06-01";
  }
  view = viewed(test);
  CHECK(view.groups[0].title == "baseline");
  CHECK(view.groups[1].title == "before");
  CHECK(view.groups[0].columns.size() == 3);
  CHECK_FALSE(view.one_day());
}

TEST_CASE("power_picture_data: set-ups stand in the order of their days") {
  Test test = TestBuilder().build();
  // In disorder: the last one of the stage was made first.
  for (std::size_t k = 0; k < 4; ++k)
    test.record.setups[k].date = june(9 - static_cast<int>(k));
  const PowerView view = viewed(test);
  CHECK(view.groups[0].columns[0].name == "4");
  CHECK(view.groups[0].columns[0].date == june(6));
  CHECK(view.groups[0].columns[3].name == "1");
}

TEST_CASE("power_picture_data: what was left out stays in sight and what lies apart is marked") {
  Test test = TestBuilder().rounds(6).build();
  test.record.readings[0].skip = "a cloud";
  PowerResult power = judged(test);
  power.outlying = {2};
  const PowerView view = view_power(test, power);
  CHECK(view.skipped() == 1);
  CHECK(view.groups[0].columns[0].skipped.size() == 1);
  CHECK(view.apart() == 1);
  CHECK(view.groups[0].columns[0].apart.size() == 1);
  CHECK(view.groups[0].columns[0].readings.size() == 4);
  CHECK(view.readings() == 47);
  // A row without its three values has nothing to draw.
  test.record.readings[0].measured = false;
  CHECK(viewed(test).skipped() == 0);
}

TEST_CASE("power_picture_data: where a line in time is taken out the means differ by lambda") {
  TestBuilder b;
  b.same_panel().timed().setups(5, 5).loss(0.03);
  b.test.protocol.measure.fitted_trend = true;
  const Test test = b.build();
  const PowerResult power = judged(test);
  REQUIRE(power.model->trend);
  const PowerView view = view_power(test, power);
  CHECK_THAT(std::log(view.to / view.from), WithinAbs(power.estimate.lambda, 1e-12));
  CHECK(view.from > 80.0);
}

TEST_CASE("power_picture_data: quarters of many readings") {
  // R 4.2.2: quantile(c(4.1, 2.5, 9.9, 3.3, 7.2, 1.0, 6.4), type = 7), and of c(1, 2, 10, 20).
  const Spread seven = spread_of({4.1, 2.5, 9.9, 3.3, 7.2, 1.0, 6.4});
  CHECK(seven.least == 1.0);
  CHECK_THAT(seven.lower, WithinAbs(2.9, 1e-12));
  CHECK_THAT(seven.upper, WithinAbs(6.8, 1e-12));
  CHECK(seven.largest == 9.9);
  const Spread four = spread_of({20.0, 1.0, 10.0, 2.0});
  CHECK_THAT(four.lower, WithinAbs(1.75, 1e-12));
  CHECK_THAT(four.upper, WithinAbs(12.5, 1e-12));
  CHECK(spread_of({5.0}).upper == 5.0);
  CHECK_THROWS_AS(spread_of({}), BugError);
}

TEST_CASE("power_picture_data: there must be a comparison") {
  const Test test = TestBuilder().setups(1, 1).build();
  const PowerResult power = judged(test);
  REQUIRE_FALSE(power.estimated());
  CHECK_THROWS_AS(view_power(test, power), BugError);
}
