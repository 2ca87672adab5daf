#include "hailwright/metrology/probit.hpp"

#include <cmath>
#include <numbers>
#include <vector>

#include "hailwright/core/contract.hpp"
#include "support/catch.hpp"

using namespace hailwright;

namespace {

/// 25 tests up and down in the common logarithm of a height. Source: M. S. Hamada, J. T. Mang,
/// L. H. Hoff, Quality Engineering 2019, doi 10.1080/08982112.2018.1551547, table 1 (read; the
/// outcomes of tests 4, 5 and 8, not legible there, follow from the heights after them).
std::vector<ProbitTest> published_tests() {
  const std::vector<double> heights{25.4, 28.5, 25.4, 28.5, 32.0, 35.9, 32.0, 35.9, 40.3,
                                    35.9, 32.0, 28.5, 32.0, 28.5, 32.0, 28.5, 32.0, 35.9,
                                    40.3, 35.9, 32.0, 35.9, 40.3, 35.9, 40.3};
  const std::vector<int> ones{0, 1, 0, 0, 0, 1, 0, 0, 1, 1, 1, 0, 1,
                              0, 1, 0, 0, 0, 1, 1, 0, 0, 1, 0, 1};
  std::vector<ProbitTest> tests;
  for (std::size_t i = 0; i < heights.size(); ++i)
    tests.push_back({std::log10(heights[i]), ones[i] == 1});
  return tests;
}

/// Male tobacco budworms, 20 a dose, dead at dose 2^0 to 2^5: 1 4 9 13 18 20 (Venables and Ripley,
/// Modern Applied Statistics with S; numbers read at stat.ethz.ch r-help, August 2006, 111447).
std::vector<ProbitTest> budworms() {
  const std::vector<int> dead{1, 4, 9, 13, 18, 20};
  std::vector<ProbitTest> tests;
  for (std::size_t dose = 0; dose < dead.size(); ++dose) {
    for (int i = 0; i < 20; ++i)
      tests.push_back({static_cast<double>(dose), i < dead[dose]});
  }
  return tests;
}

/// Ten invented tests that hardly rise.
std::vector<ProbitTest> flat_tests() {
  const std::vector<int> ones{0, 1, 0, 0, 1, 0, 1, 1, 0, 1};
  std::vector<ProbitTest> tests;
  for (std::size_t i = 0; i < ones.size(); ++i)
    tests.push_back({static_cast<double>(i) + 1.0, ones[i] == 1});
  return tests;
}

void check_interval(const ProfileInterval& found, double low, double high) {
  CAPTURE(low, high);
  REQUIRE(found.low);
  REQUIRE(found.high);
  CHECK_THAT(*found.low, WithinAbs(low, 1e-6));
  CHECK_THAT(*found.high, WithinAbs(high, 1e-6));
}

}  // namespace

// The article prints, from R's glm with probit link at its usual tolerance, intercept -20.77376,
// slope 13.56263, location 1.531691 and scale 0.073731988.
TEST_CASE("a published up and down test has its published probit estimate") {
  const std::vector<ProbitTest> tests = published_tests();
  const auto fit = fit_probit(tests);
  REQUIRE(fit);
  CHECK_THAT(fit->location, WithinAbs(1.531691, 5e-7));
  CHECK_THAT(fit->scale, WithinAbs(0.073731988, 2e-7));
  CHECK_THAT(-fit->location / fit->scale, WithinAbs(-20.77376, 6e-5));
  CHECK_THAT(1.0 / fit->scale, WithinAbs(13.56263, 5e-5));
}

// R 4.2.2: glm(y ~ x, binomial("probit"), epsilon 1e-15); the profiles by optimize over the slope
// and uniroot on the quantile.
TEST_CASE("estimates and profile intervals agree with R on a published up and down test") {
  const std::vector<ProbitTest> tests = published_tests();
  const auto fit = fit_probit(tests);
  REQUIRE(fit);
  CHECK_THAT(fit->location, WithinAbs(1.53169061584, 1e-9));
  CHECK_THAT(fit->scale, WithinAbs(0.07373180705, 1e-9));
  CHECK_THAT(fit->log_likelihood, WithinAbs(-13.51183952372, 1e-9));
  CHECK_THAT(fit->quantile(0.1), WithinAbs(1.43719950308, 1e-9));
  check_interval(quantile_interval(tests, *fit, 0.1, 0.95), 1.17857142146, 1.48945316941);
  check_interval(quantile_interval(tests, *fit, 0.5, 0.95), 1.48352978328, 1.60570661855);
  check_interval(quantile_interval(tests, *fit, 0.9, 0.95), 1.56780525834, 1.94512080969);
  check_interval(scale_interval(tests, *fit, 0.95), 0.03849675633, 0.29098850596);
}

TEST_CASE("estimates and profile intervals agree with R on the budworms") {
  const std::vector<ProbitTest> tests = budworms();
  const auto fit = fit_probit(tests);
  REQUIRE(fit);
  CHECK_THAT(fit->location, WithinAbs(2.2336179696, 1e-8));
  CHECK_THAT(fit->scale, WithinAbs(1.3570610664, 1e-8));
  CHECK_THAT(fit->log_likelihood, WithinAbs(-47.8401293413, 1e-8));
  check_interval(quantile_interval(tests, *fit, 0.1, 0.95), -0.3162207710, 1.0500858061);
  check_interval(quantile_interval(tests, *fit, 0.5, 0.95), 1.832978782, 2.626526886);
  check_interval(quantile_interval(tests, *fit, 0.9, 0.95), 3.426453045, 4.739838426);
  check_interval(scale_interval(tests, *fit, 0.95), 1.030446083, 1.872538707);
}

TEST_CASE("a side that the data leave open has no end") {
  const std::vector<ProbitTest> tests = flat_tests();
  const auto fit = fit_probit(tests);
  REQUIRE(fit);
  CHECK_THAT(fit->location, WithinAbs(5.5, 1e-8));
  CHECK_THAT(fit->scale, WithinAbs(6.956445710, 1e-7));
  const ProfileInterval low = quantile_interval(tests, *fit, 0.1, 0.95);
  CHECK_FALSE(low.low);
  REQUIRE(low.high);
  CHECK_THAT(*low.high, WithinAbs(3.623366846, 1e-6));
  const ProfileInterval middle = quantile_interval(tests, *fit, 0.5, 0.95);
  CHECK_FALSE(middle.low);
  CHECK_FALSE(middle.high);
  const ProfileInterval high = quantile_interval(tests, *fit, 0.9, 0.95);
  REQUIRE(high.low);
  CHECK_THAT(*high.low, WithinAbs(7.376633154, 1e-6));
  CHECK_FALSE(high.high);
  const ProfileInterval scale = scale_interval(tests, *fit, 0.95);
  REQUIRE(scale.low);
  CHECK_THAT(*scale.low, WithinAbs(2.237884034, 1e-6));
  CHECK_FALSE(scale.high);
}

TEST_CASE("the unit and the zero of x do not matter") {
  const std::vector<ProbitTest> tests = budworms();
  const auto fit = fit_probit(tests);
  REQUIRE(fit);
  const ProfileInterval plain = quantile_interval(tests, *fit, 0.5, 0.95);
  for (const double unit : {1e-9, 1e-3, 1e6}) {
    for (const double zero : {0.0, 40.0, -7.5}) {
      CAPTURE(unit, zero);
      std::vector<ProbitTest> moved = tests;
      for (ProbitTest& test : moved)
        test.x = unit * (test.x + zero);
      const auto again = fit_probit(moved);
      REQUIRE(again);
      CHECK_THAT(again->location / unit - zero, WithinAbs(fit->location, 1e-8));
      CHECK_THAT(again->scale / unit, WithinRel(fit->scale, 1e-9));
      const ProfileInterval interval = quantile_interval(moved, *again, 0.5, 0.95);
      REQUIRE((interval.low && interval.high));
      CHECK_THAT(*interval.low / unit - zero, WithinAbs(*plain.low, 1e-7));
      CHECK_THAT(*interval.high / unit - zero, WithinAbs(*plain.high, 1e-7));
    }
  }
}

TEST_CASE("outcomes that do not overlap have no estimate") {
  using enum ProbitObstacle;
  struct Row {
    std::vector<ProbitTest> tests;
    ProbitObstacle obstacle;
  };
  for (const Row& row : std::vector<Row>{
           {{}, one_outcome},
           {{{1.0, true}, {2.0, true}}, one_outcome},
           {{{1.0, false}, {2.0, false}}, one_outcome},
           {{{1.0, false}, {2.0, false}, {3.0, true}}, separated},
           {{{1.0, false}, {2.0, false}, {2.0, true}, {3.0, true}}, separated},
           {{{2.0, false}, {2.0, true}}, separated},
           {{{1.0, true}, {2.0, false}}, not_rising},
           {{{1.0, true}, {2.0, true}, {2.0, false}, {3.0, false}}, not_rising},
           {{{1.0, false}, {3.0, false}, {2.0, true}, {4.0, true}}, none},
       }) {
    CAPTURE(row.tests.size(), static_cast<int>(row.obstacle));
    CHECK(probit_obstacle(row.tests) == row.obstacle);
    CHECK(fit_probit(row.tests).has_value() == (row.obstacle == none));
  }
}

TEST_CASE("a slope that does not rise has no estimate") {
  // Overlapping, but the 1 stand lower on the whole.
  const std::vector<ProbitTest> falling{{1.0, true}, {2.0, true},  {3.0, false},
                                        {4.0, true}, {5.0, false}, {2.5, false}};
  CHECK(probit_obstacle(falling) == ProbitObstacle::none);
  CHECK_FALSE(fit_probit(falling));
  // Level: as many of each on both sides.
  CHECK_FALSE(
      fit_probit(std::vector<ProbitTest>{{1.0, true}, {1.0, false}, {2.0, true}, {2.0, false}}));
}

// R 4.2.2: pnorm(z, log.p = TRUE).
TEST_CASE("the logarithm of the normal distribution function holds in the tails") {
  CHECK_THAT(log_normal_cdf(0.0), WithinRel(-std::numbers::ln2, 1e-14));
  CHECK_THAT(log_normal_cdf(-5.0), WithinRel(-15.0649983939887253, 1e-13));
  CHECK_THAT(log_normal_cdf(-19.99), WithinRel(-203.716707717208408, 1e-12));
  CHECK_THAT(log_normal_cdf(-20.01), WithinRel(-204.117702778659947, 1e-12));
  CHECK_THAT(log_normal_cdf(-40.0), WithinRel(-804.608442013753802, 1e-13));
  CHECK_THAT(log_normal_cdf(-1e6), WithinRel(-500000000014.734436, 1e-13));
  CHECK_THAT(log_normal_cdf(6.0), WithinRel(-9.86587645524375594e-10, 1e-9));
  CHECK(log_normal_cdf(40.0) == 0.0);
}

// A test far outside must pull no more than it can, and nothing may fail on the way.
TEST_CASE("a fit ends whatever the data are") {
  std::vector<ProbitTest> tests = budworms();
  tests.push_back({1e12, false});
  tests.push_back({-1e12, true});
  if (const auto fit = fit_probit(tests)) {
    CHECK(std::isfinite(fit->location));
    CHECK(fit->scale > 0.0);
    const ProfileInterval interval = quantile_interval(tests, *fit, 0.5, 0.95);
    if (interval.low) CHECK(std::isfinite(*interval.low));
  }
  CHECK_THROWS_AS(fit_probit(std::vector<ProbitTest>{{std::nan(""), true}}), BugError);
}

// Nearly separated data: the estimate is finite and far steeper than the spacing.
TEST_CASE("one overlap is enough for an estimate") {
  std::vector<ProbitTest> tests;
  for (int i = 0; i < 20; ++i)
    tests.push_back({static_cast<double>(i), i >= 10});
  tests.push_back({9.5, true});
  tests.push_back({9.6, false});
  const auto fit = fit_probit(tests);
  REQUIRE(fit);
  CHECK(fit->location > 9.0);
  CHECK(fit->location < 10.0);
  const ProfileInterval interval = quantile_interval(tests, *fit, 0.5, 0.95);
  REQUIRE((interval.low && interval.high));
  CHECK(*interval.low < fit->location);
  CHECK(*interval.high > fit->location);
}
