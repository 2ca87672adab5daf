// MEASUREMENT M8: a step at the shots beside a line in time, by least squares over the set-ups.
#include "evaluate/trend_fit.hpp"

#include <cmath>
#include <numeric>

#include "support/catch.hpp"
#include "support/test_builder.hpp"

using namespace hailwright;
using hailwright::testing::TestBuilder;

namespace {

constexpr PowerQuestion::Of both = PowerQuestion::Of::both;

StageBlocks blocks_of(const Test& t) {
  return collect_stage_blocks(t, {{StageKind::before, 0}, {StageKind::after, 0}, both});
}

/// Set-ups that the instruments' drift moves by so much a day.
void drift(Test& t, double per_day) {
  for (Reading& r : t.record.readings) {
    if (r.role != Role::struck) continue;
    r.power = r.power * std::exp(per_day * *r.minute / 1440.0);
  }
}

}  // namespace

TEST_CASE("trend: when a set-up was read") {
  Test t = TestBuilder().timed().build();
  const StageBlocks blocks = blocks_of(t);
  const double first = *middle_day(t, blocks.from[0]);
  CHECK_THAT(*middle_day(t, blocks.from[1]) - first, WithinAbs(30.0 / 1440.0, 1e-9));
  CHECK_THAT(first - std::floor(first), WithinAbs(9.0 / 24.0 + 1.0 / 1440.0, 1e-9));
  t.record.setups[0].date = "some day";
  CHECK_FALSE(middle_day(t, blocks.from[0]).has_value());
  const Test no_times = TestBuilder().build();
  CHECK_FALSE(middle_day(no_times, blocks_of(no_times).from[0]).has_value());
}

TEST_CASE("trend: a steady drift across the shots is taken out of the step") {
  Test t = TestBuilder().setups(4, 5).loss(0.03).setup_scatter(0.0).timed().build();
  drift(t, 0.08);
  const StageBlocks blocks = blocks_of(t);
  const auto fit = fit_trend(t, blocks.from, blocks.to);
  REQUIRE(fit.has_value());
  CHECK_THAT(fit->per_day, WithinAbs(0.08, 1e-9));
  CHECK(fit->dof == 6.0);
  CHECK_THAT(fit->sd, WithinAbs(0.0, 1e-9));
  double step = 0.0;
  for (std::size_t i = 0; i < blocks.to.size(); ++i)
    step += fit->to[i] * blocks.to[i].value;
  for (std::size_t i = 0; i < blocks.from.size(); ++i)
    step -= fit->from[i] * blocks.from[i].value;
  CHECK_THAT(step, WithinAbs(std::log(0.97), 1e-9));
  CHECK_THAT(std::accumulate(fit->to.begin(), fit->to.end(), 0.0), WithinAbs(1.0, 1e-12));
  CHECK_THAT(std::accumulate(fit->from.begin(), fit->from.end(), 0.0), WithinAbs(1.0, 1e-12));
}

// Covariance of the least squares of a + step [after] + b t, worked by hand for four set-ups a
// stage at t = 0, 1, 2, 3 and 12, 13, 14, 15 half hours: S_tt inside the stages is 10, the middle
// times lie 12 apart, so that var(step) = s^2 (1/4 + 1/4 + 144/10), var(b) = s^2 / 10 per half hour
// squared.
TEST_CASE("trend: its own covariance") {
  const Test t = TestBuilder().setups(4, 4).setup_scatter(0.004).timed().build();
  const StageBlocks blocks = blocks_of(t);
  const auto fit = fit_trend(t, blocks.from, blocks.to);
  REQUIRE(fit.has_value());
  CHECK(fit->dof == 5.0);
  CHECK_THAT(fit->step_share, WithinRel(std::sqrt(0.5 + 14.4), 1e-9));
  CHECK_THAT(fit->line_share, WithinRel(48.0 / std::sqrt(10.0), 1e-9));
  // Set-ups at +d, -d, +d, -d in each stage: slope -0.4 d a half hour, rest 8 d^2 - 0.16 d^2 * 10.
  const double d = 0.004 * std::sqrt(0.75);
  CHECK_THAT(fit->per_day, WithinRel(-0.4 * d * 48.0, 1e-9));
  CHECK_THAT(fit->sd, WithinRel(d * std::sqrt((8.0 - 1.6) / 5.0), 1e-9));
}

TEST_CASE("trend: four timed set-ups a stage are needed") {
  const Test few = TestBuilder().setups(4, 3).timed().build();
  CHECK_FALSE(fit_trend(few, blocks_of(few).from, blocks_of(few).to).has_value());
  const Test no_times = TestBuilder().setups(4, 4).build();
  CHECK_FALSE(fit_trend(no_times, blocks_of(no_times).from, blocks_of(no_times).to).has_value());
  Test at_once = TestBuilder().setups(4, 4).timed().build();
  for (Reading& r : at_once.record.readings)
    r.minute = 600;
  CHECK_FALSE(fit_trend(at_once, blocks_of(at_once).from, blocks_of(at_once).to).has_value());
}
