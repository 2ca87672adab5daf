#include "hailwright/metrology/sampled_distribution.hpp"

#include <cmath>
#include <limits>
#include <vector>

#include "hailwright/core/contract.hpp"
#include "hailwright/metrology/distributions.hpp"
#include "hailwright/metrology/random.hpp"
#include "support/catch.hpp"

using namespace hailwright;

namespace {

constexpr double infinite = std::numeric_limits<double>::infinity();

SampledDistribution filled(SampledDistribution bins, const std::vector<double>& values) {
  bins.add(values);
  return bins;
}

/// p, 3p, 5p, ... below 1 through this quantile function: a sample without chance.
template <class Quantile>
std::vector<double> even_sample(std::size_t n, Quantile quantile) {
  std::vector<double> values;
  for (std::size_t i = 0; i < n; ++i)
    values.push_back(quantile((static_cast<double>(i) + 0.5) / static_cast<double>(n)));
  return values;
}

}  // namespace

// Four bins of width 1 from 0 on, filled by hand.
TEST_CASE("counts in bins give quantiles, shares, mean and spread") {
  const SampledDistribution d = filled({0.0, 4.0, 4}, {0.1, 0.9, 1.5, 1.6, 1.7, 1.8, 3.2, 3.3});
  CHECK(d.trials() == 8);
  CHECK(d.quantile(0.125) == 0.5);
  CHECK(d.quantile(0.25) == 1.0);
  CHECK(d.quantile(0.5) == 1.5);
  CHECK(d.quantile(0.75) == 2.0);
  CHECK(d.quantile(0.875) == 3.5);
  CHECK(d.above(-1.0) == 1.0);
  CHECK(d.above(0.5) == 0.875);
  CHECK(d.above(2.5) == 0.25);
  CHECK(d.above(3.5) == 0.125);
  CHECK(d.above(4.0) == 0.0);
  // Middles 0.5 twice, 1.5 four times, 3.5 twice.
  CHECK(d.mean() == 1.75);
  CHECK_THAT(d.sd(), WithinRel(std::sqrt((2 * 1.5625 + 4 * 0.0625 + 2 * 3.0625) / 7.0), 1e-14));
}

TEST_CASE("values beyond the equal bins are told to a part in 64 of their distance") {
  for (const double far : {1.001, 1.5, 3.0, 100.0, 1e6, 1e15}) {
    for (const double sign : {-1.0, 1.0}) {
      const double value = sign * far;
      const SampledDistribution d = filled({-1.0, 1.0, 100}, {value, value});
      CAPTURE(value);
      // 1 + d/h is far itself here.
      CHECK_THAT(d.quantile(0.5), WithinAbs(value, far / 64.0));
      CHECK_THAT(d.mean(), WithinAbs(value, far / 128.0));
      CHECK(d.above(sign > 0.0 ? 1.0 : -1.0) == (sign > 0.0 ? 1.0 : 0.0));
    }
  }
  // Farther than any bin: in the last one.
  const SampledDistribution d = filled({-1.0, 1.0, 100}, {infinite, 1e300, -infinite});
  CHECK(d.quantile(0.5) > 1e19);
  CHECK(d.quantile(0.1) < -1e19);
}

// A value in the bin next to the equal ones must not be moved when another one is.
TEST_CASE("values just outside are counted once, whatever comes with them") {
  const std::vector<double> values{1.001, 5.0, -1.001, -7.0, 0.0, 1.002};
  SampledDistribution one_by_one(-1.0, 1.0, 10);
  for (const double& v : values)
    one_by_one.add({&v, 1});
  SampledDistribution together(-1.0, 1.0, 10);
  together.add(values);
  for (double p = 0.05; p < 1.0; p += 0.05)
    CHECK(one_by_one.quantile(p) == together.quantile(p));
  CHECK(together.trials() == 6);
  CHECK_THAT(together.above(2.0), WithinAbs(1.0 / 6.0, 1e-15));
}

TEST_CASE("parts may be merged in any order") {
  std::vector<SampledDistribution> parts;
  for (std::uint64_t block = 0; block < 3; ++block) {
    std::vector<double> values(1000);
    RandomStream random(1, block);
    fill_standard(random, Shape::normal, 1.0, values);
    parts.push_back(filled({-5.0, 5.0, 256}, values));
  }
  SampledDistribution forward = parts[0];
  forward.merge(parts[1]);
  forward.merge(parts[2]);
  SampledDistribution backward = parts[2];
  backward.merge(parts[1]);
  backward.merge(parts[0]);
  CHECK(forward.trials() == 3000);
  CHECK(forward.mean() == backward.mean());
  CHECK(forward.sd() == backward.sd());
  CHECK(forward.quantile(0.001) == backward.quantile(0.001));
  CHECK(forward.shortest(0.9) == backward.shortest(0.9));
  forward.clear();
  CHECK(forward.trials() == 0);
  forward.merge(parts[1]);
  CHECK(forward.mean() == parts[1].mean());
}

// The bins of a Monte Carlo run: 8 standard deviations each way, 2^14 bins.
TEST_CASE("fine bins lose nothing that random trials could show") {
  const std::vector<double> values = even_sample(100'000, normal_quantile);
  const SampledDistribution d = filled({-8.0, 8.0, std::size_t{1} << 14U}, values);
  double sum = 0.0;
  for (const double v : values)
    sum += v * v;
  const double exact_sd = std::sqrt(sum / 99'999.0);
  CHECK_THAT(d.sd(), WithinRel(exact_sd, 1e-6));
  CHECK_THAT(d.mean(), WithinAbs(0.0, 1e-6));
  for (const double p : {0.025, 0.16, 0.5, 0.975})
    CHECK_THAT(d.quantile(p), WithinAbs(normal_quantile(p), 2e-4));
  CHECK_THAT(d.above(1.0), WithinAbs(normal_cdf(-1.0), 1e-5));
  const auto [low, high] = d.shortest(0.95);
  CHECK_THAT(high - low, WithinAbs(2.0 * normal_quantile(0.975), 2e-3));
}

// Student's t with 3 degrees of freedom. Some 20 of the 20,000 values lie beyond the equal bins and
// make 5 % of the sum of squares; each is told to 1/128, so the standard deviation to a few 10^-4.
TEST_CASE("heavy tails keep their standard deviation and shares") {
  const auto t3 = [](double p) { return t_quantile(p, 3.0); };
  const std::vector<double> values = even_sample(20'000, t3);
  const SampledDistribution d = filled({-12.0, 12.0, std::size_t{1} << 14U}, values);
  double sum = 0.0;
  for (const double v : values)
    sum += v * v;
  CHECK_THAT(d.sd(), WithinRel(std::sqrt(sum / 19'999.0), 5e-4));
  CHECK_THAT(d.above(15.0), WithinAbs(1.0 - t_cdf(15.0, 3.0), 5e-5));
}

// Exponential distribution: the shortest interval starts at 0 and ends at -ln(1 - p).
TEST_CASE("the shortest interval of a skewed distribution") {
  const std::vector<double> values = even_sample(100'000, [](double p) { return -std::log1p(-p); });
  const SampledDistribution d = filled({-7.0, 9.0, std::size_t{1} << 14U}, values);
  const auto [low, high] = d.shortest(0.95);
  CHECK_THAT(low, WithinAbs(0.0, 2e-3));
  CHECK_THAT(high, WithinAbs(-std::log(0.05), 1e-2));
}

TEST_CASE("a falling map turns the ends round") {
  const std::vector<double> values = even_sample(50'000, [](double p) { return p; });
  const SampledDistribution d = filled({0.0, 1.0, 1000}, values);
  const auto loss = [](double lambda) { return 1.0 - std::exp(lambda); };
  CHECK_THAT(d.mean(loss), WithinRel(2.0 - std::exp(1.0), 1e-6));
  // Variance of e^U: (e^2 - 1)/2 - (e - 1)^2.
  const double e = std::exp(1.0);
  CHECK_THAT(d.sd(loss), WithinRel(std::sqrt(0.5 * (e * e - 1.0) - (e - 1.0) * (e - 1.0)), 1e-4));
  // e^U is densest at its lower end, so the loss at its upper one.
  const auto [low, high] = d.shortest(0.9, loss);
  CHECK_THAT(low, WithinAbs(1.0 - std::exp(0.9), 2e-3));
  CHECK_THAT(high, WithinAbs(0.0, 2e-3));
}

TEST_CASE("what a distribution cannot tell is our bug") {
  SampledDistribution d(0.0, 1.0, 10);
  CHECK_THROWS_AS(d.quantile(0.5), BugError);
  CHECK_THROWS_AS(d.mean(), BugError);
  CHECK_THROWS_AS(d.above(0.5), BugError);
  CHECK_THROWS_AS(d.shortest(0.9), BugError);
  d.add(std::vector<double>{0.5});
  CHECK_THROWS_AS(d.sd(), BugError);
  CHECK_THROWS_AS(d.quantile(0.0), BugError);
  CHECK_THROWS_AS(d.quantile(1.0), BugError);
  CHECK_THROWS_AS(d.shortest(1.0), BugError);
  CHECK_THROWS_AS(d.add(std::vector<double>{std::nan("")}), BugError);
  CHECK_THROWS_AS(d.merge(SampledDistribution(0.0, 1.0, 11)), BugError);
  CHECK_THROWS_AS(d.merge(SampledDistribution(0.0, 2.0, 10)), BugError);
  CHECK_THROWS_AS(SampledDistribution(1.0, 1.0, 10), BugError);
  CHECK_THROWS_AS(SampledDistribution(0.0, 1.0, 0), BugError);
}
