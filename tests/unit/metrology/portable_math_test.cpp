#include "hailwright/metrology/portable_math.hpp"

#include <bit>
#include <cmath>
#include <cstdint>
#include <limits>
#include <vector>

#include "hailwright/metrology/random.hpp"
#include "metrology/portable_kernels.hpp"
#include "support/catch.hpp"

using namespace hailwright;

namespace {

/// Distance from the long double value of the C library, in units of the last place of a double.
double ulps_off(double value, long double exact) {
  const double size = std::abs(static_cast<double>(exact));
  const double ulp = std::nextafter(size, std::numeric_limits<double>::infinity()) - size;
  return static_cast<double>(std::abs(value - exact) / ulp);
}

double log_off(double x) {
  return ulps_off(portable_log(x), std::log(static_cast<long double>(x)));
}

double exp_off(double x) {
  return ulps_off(portable_exp(x), std::exp(static_cast<long double>(x)));
}

}  // namespace

TEST_CASE("portable logarithm is right to 2 units in the last place") {
  double worst = 0.0;
  RandomStream random(1);
  SECTION("any normal positive number") {
    for (int i = 0; i < 100'000; ++i) {
      const std::uint64_t exponent = 1 + random.bits() % 2046;
      const double x = std::bit_cast<double>((exponent << 52U) | (random.bits() >> 12U));
      worst = std::max(worst, log_off(x));
    }
  }
  SECTION("between a half and two, where the exponent changes sign") {
    for (int i = 0; i < 100'000; ++i)
      worst = std::max(worst, log_off(0.5 + 1.5 * random.uniform()));
  }
  SECTION("next to 1") {
    for (int i = 1; i < 10'000; ++i) {
      for (const double step : {0x1p-52, 0x1p-43, 0x1p-33, 0x1p-24, 0x1p-16})
        worst = std::max({worst, log_off(1.0 + i * step), log_off(1.0 - 0.5 * i * step)});
    }
  }
  CHECK(worst < 2.0);
  CHECK(worst > 0.0);
}

TEST_CASE("portable logarithm at its ends and where it is exact") {
  CHECK(portable_log(1.0) == 0.0);
  CHECK(log_off(2.0) < 1.0);
  CHECK(log_off(std::sqrt(0.5)) < 2.0);
  CHECK(log_off(std::numeric_limits<double>::min()) < 1.0);
  CHECK(log_off(std::numeric_limits<double>::max()) < 1.0);
}

TEST_CASE("portable exponential is right to 2 units in the last place") {
  double worst = 0.0;
  RandomStream random(2);
  for (const double reach : {700.0, 30.0, 1.0, 1e-3}) {
    for (int i = 0; i < 50'000; ++i)
      worst = std::max(worst, exp_off(reach * (2.0 * random.uniform() - 1.0)));
  }
  // Where the power of two changes.
  for (int k = -1000; k <= 1000; ++k) {
    for (const double off : {-1e-9, 0.0, 1e-9})
      worst = std::max(worst, exp_off((k + 0.5) * 0.6931471805599453 + off));
  }
  CHECK(worst < 2.0);
  CHECK(worst > 0.0);
  CHECK(portable_exp(0.0) == 1.0);
  CHECK(exp_off(700.0) < 2.0);
  CHECK(exp_off(-700.0) < 2.0);
}

TEST_CASE("arrays get the bits of single values") {
  RandomStream random(3);
  for (const std::size_t n : {0U, 1U, 7U, 8U, 9U, 1000U}) {
    std::vector<double> logs(n);
    for (double& x : logs)
      x = 1e3 * random.uniform();
    std::vector<double> exps = logs;
    const std::vector<double> x = logs;
    portable_log(logs);
    portable_exp(std::span(exps));
    for (std::size_t i = 0; i < n; ++i) {
      if (x[i] > 700.0) continue;
      CAPTURE(n, i, x[i]);
      CHECK(std::bit_cast<std::uint64_t>(logs[i]) ==
            std::bit_cast<std::uint64_t>(portable_log(x[i])));
      CHECK(std::bit_cast<std::uint64_t>(exps[i]) ==
            std::bit_cast<std::uint64_t>(portable_exp(x[i])));
    }
  }
}

TEST_CASE("sine of half turns") {
  double worst = 0.0;
  for (int i = -5000; i <= 5000; ++i) {
    const double t = 1e-4 * i;
    const long double exact = std::sin(3.14159265358979323846264338328L * t);
    worst = std::max(worst, static_cast<double>(std::abs(detail::sine_of_half_turns(t) - exact)));
  }
  CHECK(worst < 1e-15);
}
