#include "logs/ratio_windows.hpp"

#include <cmath>
#include <random>

#include "support/catch.hpp"
#include "unit/logs/made_rows.hpp"

using namespace hailwright;
using made::always;

namespace {

LogBlock two(std::size_t rows, double step_s, const made::Cell& first, const made::Cell& second) {
  return made::rows(rows, step_s, {{LogRole::power, first}, {LogRole::power_beside, second}});
}

std::optional<RatioMean> ratio(const LogBlock& block, std::size_t at_once = 1'000'000,
                               double longest_gap_s = 10.0) {
  detail::RatioWindows windows(Power::from_si(1.0), longest_gap_s);
  for (std::size_t at = 0; at < block.rows(); at += at_once)
    windows.take(block.time_us, block.column(LogRole::power), block.column(LogRole::power_beside),
                 at, std::min(block.rows(), at + at_once));
  return windows.finish();
}

double sun(double t) {
  return 60.0 + 20.0 * std::sin(t / 300.0) + 10.0 * std::sin(t / 7.0);
}

}  // namespace

TEST_CASE("ratio windows: of two panels in one sun") {
  const auto block = two(3601, 1.0, sun, [](double t) { return 0.95 * sun(t); });
  const RatioMean out = ratio(block).value();
  CHECK_THAT(out.ratio, WithinRel(0.95, 1e-13));
  CHECK(out.windows.count == 60);  // the last row begins a window of its own
  CHECK(out.windows.sd < 1e-14);
  const PowerIntegral energy =
      PowerIntegral::of(block.time_us, block.column(LogRole::power), 0, block.rows(), 10.0);
  CHECK_THAT(out.first.si(), WithinRel(energy.energy_j(), 1e-14));
  CHECK_THAT(out.second.si(), WithinRel(0.95 * energy.energy_j(), 1e-13));
}

TEST_CASE("ratio windows: mean of the logarithms of the energies of each minute") {
  const auto steps = [](double t) { return t < 60.0 ? 90.0 : 110.0; };
  LogBlock block = two(120, 1.0, always(100.0), steps);
  const RatioMean out = ratio(block).value();
  // The step from 59 s to 60 s belongs to the second minute: (100 + 59 * 110) of 6000 W s.
  const double second = std::log((100.0 + 59.0 * 110.0) / 6000.0);
  CHECK_THAT(out.windows.mean, WithinRel((std::log(0.9) + second) / 2.0, 1e-13));
  CHECK(out.windows.count == 2);
  CHECK_FALSE(out.windows.standard_u());
}

TEST_CASE("ratio windows: only minutes in which both give power count") {
  const auto off = [](double t) { return t >= 70.0 && t < 75.0 ? 0.5 : 50.0; };
  const RatioMean out = ratio(two(240, 1.0, always(100.0), off)).value();
  CHECK(out.windows.count == 3);
  CHECK_THAT(out.ratio, WithinRel(0.5, 1e-14));
  CHECK_FALSE(ratio(two(240, 1.0, always(100.0), always(0.0))));
  CHECK_FALSE(ratio(two(240, 1.0, always(100.0), always(made::blank))));
}

TEST_CASE("ratio windows: a gap or a short piece does not count") {
  // The third minute: 30 rows, with the step into it half a minute; 29 rows are less.
  CHECK(ratio(two(150, 1.0, always(100.0), always(50.0))).value().windows.count == 3);
  LogBlock block = two(149, 1.0, always(100.0), always(50.0));
  CHECK(ratio(block).value().windows.count == 2);
  // A gap of 21 s that ends in the third minute; the second still has 40 s.
  for (std::size_t i = 100; i < block.rows(); ++i)
    block.time_us[i] += 20 * made::second_us;
  CHECK(ratio(block).value().windows.count == 2);
  // Another one in the second minute.
  for (std::size_t i = 80; i < block.rows(); ++i)
    block.time_us[i] += 12 * made::second_us;
  CHECK(ratio(block).value().windows.count == 1);
}

TEST_CASE("ratio windows: a log slower than a minute has a step a window") {
  const auto out = ratio(two(100, 300.0, always(100.0), always(80.0)), 7, 1500.0).value();
  CHECK(out.windows.count == 99);
  CHECK_THAT(out.ratio, WithinRel(0.8, 1e-14));
}

TEST_CASE("ratio windows: energies are of the rows where both are there") {
  const auto some = [](double t) { return std::fmod(t, 3.0) == 1.0 ? made::blank : 50.0; };
  const RatioMean out = ratio(two(
                                  121, 1.0, [](double t) { return 100.0 + t; }, some))
                            .value();
  // A straight line is bridged exactly: 100 * 120 + 120^2 / 2.
  CHECK_THAT(out.first.si(), WithinRel(19200.0, 1e-14));
  CHECK_THAT(out.second.si(), WithinRel(6000.0, 1e-14));
}

// The second log again, its stamps later by a little: the change of the mean logarithm of the
// ratio a second is the slope.
TEST_CASE("ratio windows: slope by the shift of the second clock") {
  const auto shifted = [](double by) {
    // Without the fast part, so that the trapezoid's own error stays out.
    const auto slow = [](double t) { return 60.0 + 20.0 * std::sin(t / 300.0) + 0.01 * t; };
    return ratio(two(1801, 1.0, slow, [=](double t) { return 0.9 * slow(t - by); })).value();
  };
  const double difference = (shifted(0.5).windows.mean - shifted(-0.5).windows.mean) / 1.0;
  const double slope = shifted(0.0).slope_per_s;
  CAPTURE(difference, slope);
  CHECK(std::abs(slope) > 1e-5);
  CHECK_THAT(slope, WithinRel(difference, 1e-3));
}

TEST_CASE("ratio windows: neighbours resemble each other where the ratio wanders") {
  std::mt19937 random(12);
  std::normal_distribution<double> noise(0.0, 0.01);
  double wander = 0.0;
  LogBlock block = two(60'000, 1.0, always(100.0), always(90.0));
  for (std::size_t i = 0; i < block.rows(); ++i) {
    if (i % 60 == 0) wander = 0.9 * wander + noise(random);
    block.values[index_of(LogRole::power_beside)][i] *= 1.0 + wander;
  }
  const RatioMean out = ratio(block).value();
  CHECK(out.windows.count == 1000);
  CHECK_THAT(out.windows.lag1, WithinAbs(0.9, 0.07));  // five times sqrt(0.19 / 1000)
  CHECK(out.windows.effective < 150.0);
  // Every tenth minute off, which spoils the one after it too: the rest tells the same.
  for (std::size_t i = 0; i < block.rows(); ++i)
    if (i / 60 % 10 == 0) block.values[index_of(LogRole::power)][i] = 0.0;
  const RatioMean fewer = ratio(block).value();
  CHECK(fewer.windows.count == 800);
  CHECK_THAT(fewer.windows.lag1, WithinAbs(0.9, 0.07));
}

TEST_CASE("ratio windows: blocks of any size give the same") {
  const auto block = two(2000, 1.0, sun, [](double t) {
    return std::fmod(t, 50.0) == 3.0 ? made::blank : 0.95 * sun(t) + std::sin(t / 3.0);
  });
  const RatioMean whole = ratio(block).value();
  for (const std::size_t at_once : {1U, 59U, 600U}) {
    const RatioMean parts = ratio(block, at_once).value();
    CAPTURE(at_once);
    CHECK_THAT(parts.ratio, WithinRel(whole.ratio, 1e-14));
    CHECK(parts.windows.count == whole.windows.count);
    CHECK_THAT(parts.first.si(), WithinRel(whole.first.si(), 1e-14));
    CHECK_THAT(parts.slope_per_s, WithinRel(whole.slope_per_s, 1e-10));
  }
}
