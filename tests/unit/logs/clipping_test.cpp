#include "logs/clipping.hpp"

#include <algorithm>
#include <cmath>
#include <random>

#include "support/catch.hpp"
#include "unit/logs/made_rows.hpp"

using namespace hailwright;

namespace {

/// Power over irradiance: a panel of 0.1 m2 that loses 3 % from 0 to 1000 W/m2 by its warmth.
double free_power(double irradiance_wpm2) {
  return 0.1 * irradiance_wpm2 * (1.0 - 3e-5 * irradiance_wpm2);
}

/// A slow sun from `from` to `to` and back in an hour, with noise of half a per cent.
std::optional<LogClipping> search(double from, double to, double level_w, double step_s = 1.0) {
  std::mt19937 random(2);
  std::normal_distribution<double> noise(0.0, 0.005);
  const auto sun = [&](double t) {
    return from + (to - from) * 0.5 * (1.0 - std::cos(t * 2.0 * 3.14159265358979 / 3600.0));
  };
  const LogBlock block =
      made::rows(static_cast<std::size_t>(3600.0 / step_s), step_s,
                 {{LogRole::irradiance, sun}, {LogRole::power, [&](double t) {
                                                 return std::min(free_power(sun(t)), level_w) *
                                                        (1.0 + noise(random));
                                               }}});
  detail::ClippingSearch clipping(Power::from_si(1.0));
  for (std::size_t at = 0; at < block.rows(); at += 777)
    clipping.take(block.time_us, block.column(LogRole::power), block.column(LogRole::irradiance),
                  at, std::min(block.rows(), at + 777));
  return clipping.finish();
}

}  // namespace

TEST_CASE("clipping: power that stays while irradiance rises") {
  const auto found = search(400.0, 1000.0, 68.0);  // reached at 694 W/m2 or so
  REQUIRE(found);
  CHECK_THAT(found->level.si(), WithinRel(68.0, 0.004));
  CHECK_THAT(found->from.si(), WithinAbs(694.0, 12.0));
  CHECK(found->to.si() > 990.0);
  CHECK(found->rows > 1000);
  CHECK(found->rows < 3600);
}

TEST_CASE("clipping: also in a log with a row in ten seconds") {
  CHECK(search(400.0, 1000.0, 68.0, 10.0).has_value());
}

TEST_CASE("clipping: a panel that follows the sun is not clipped") {
  CHECK_FALSE(search(400.0, 1000.0, 1000.0));
  CHECK_FALSE(search(50.0, 1100.0, 1000.0));
}

TEST_CASE("clipping: less than a tenth of irradiance shows nothing") {
  CHECK_FALSE(search(400.0, 750.0, 68.0));
  CHECK(search(400.0, 800.0, 68.0));
}

TEST_CASE("clipping: without a rise below it nobody can tell") {
  CHECK_FALSE(search(720.0, 1000.0, 68.0));
}

TEST_CASE("clipping: a panel that is not under load is not looked at") {
  CHECK_FALSE(search(400.0, 1000.0, 0.5));
}

TEST_CASE("clipping: passing clouds and blanks and unplugged minutes do not make or hide one") {
  std::mt19937 random(5);
  std::uniform_real_distribution<double> any(200.0, 1000.0);
  double irradiance = 800.0;
  LogBlock block;
  for (int i = 0; i < 20'000; ++i) {
    if (i % 60 == 0) irradiance = any(random);
    block.time_us.push_back(i * made::second_us);
    block.values[index_of(LogRole::irradiance)].push_back(irradiance);
    block.values[index_of(LogRole::power)].push_back(i % 97 == 0 ? made::blank
                                                     : i % 600 < 60
                                                         ? 0.0
                                                         : std::min(free_power(irradiance), 70.0));
  }
  const auto search_all = [&] {
    detail::ClippingSearch clipping(Power::from_si(1.0));
    clipping.take(block.time_us, block.column(LogRole::power), block.column(LogRole::irradiance), 0,
                  block.rows());
    return clipping.finish();
  };
  const auto found = search_all();
  REQUIRE(found);
  CHECK_THAT(found->level.si(), WithinRel(70.0, 0.003));
  auto& power = block.values[index_of(LogRole::power)];
  for (std::size_t i = 0; i < power.size(); ++i)
    power[i] = free_power(block.values[index_of(LogRole::irradiance)][i]);
  CHECK_FALSE(search_all());
  CHECK_FALSE(detail::ClippingSearch(Power::from_si(1.0)).finish());
}
