#include "evaluate/pattern_likelihood.hpp"

#include <cmath>
#include <limits>
#include <numbers>

#include "hailwright/metrology/distributions.hpp"
#include "support/catch.hpp"

using namespace hailwright;

namespace {

/// Two figures with these standard deviations and this correlation, all of it scatter.
CurveChanges two(double u0, double u1, double r, double dof) {
  CurveChanges c;
  c.read = {CurveFigure::open_voltage, CurveFigure::short_current};
  c.scatter[0][0] = u0 * u0;
  c.scatter[1][1] = u1 * u1;
  c.scatter[0][1] = c.scatter[1][0] = r * u0 * u1;
  c.scatter_dof = dof;
  return c;
}

constexpr double endless = std::numeric_limits<double>::infinity();

}  // namespace

TEST_CASE("pattern_likelihood: the normal density of two correlated figures") {
  CurveChanges c = two(0.01, 0.02, 0.6, endless);
  c.change = {0.015, -0.01, 0.0, 0.0};
  const PatternLikelihood likelihood(c);
  // Textbook density of a bivariate normal.
  const double x = 1.5, y = -0.5, rest = 1.0 - 0.36;
  const double q = (x * x - 2.0 * 0.6 * x * y + y * y) / rest;
  const double density =
      std::exp(-0.5 * q) / (2.0 * std::numbers::pi * 0.01 * 0.02 * std::sqrt(rest));
  CHECK_THAT(likelihood.at({}).misfit, WithinRel(q, 1e-12));
  CHECK_THAT(likelihood.at({}).log_likelihood, WithinRel(std::log(density), 1e-12));
}

TEST_CASE("pattern_likelihood: the t density of one figure") {
  CurveChanges c = two(0.01, 0.02, 0.0, 3.0);
  c.read = {CurveFigure::open_voltage};
  c.change = {0.02, 0.0, 0.0, 0.0};
  const PatternLikelihood likelihood(c);
  CHECK_THAT(likelihood.degrees_of_freedom(), WithinRel(3.0, 1e-12));
  // Derivative of the distribution function, by differences.
  const double density = (t_cdf(2.0 + 1e-4, 3.0) - t_cdf(2.0 - 1e-4, 3.0)) / 2e-4 / 0.01;
  CHECK_THAT(std::exp(likelihood.at({}).log_likelihood), WithinRel(density, 1e-6));
}

TEST_CASE("pattern_likelihood: what is shared raises the degrees of freedom") {
  CurveChanges c = two(0.01, 0.01, 0.0, 3.0);
  c.shared[0][0] = c.shared[1][1] = 0.01 * 0.01;
  // Half of the variance is scatter: 3 / 0.5^2.
  CHECK_THAT(PatternLikelihood(c).degrees_of_freedom(), WithinRel(12.0, 1e-9));
}

TEST_CASE("pattern_likelihood: a large prediction is uncertain itself") {
  CurveChanges c = two(0.001, 0.001, 0.0, endless);
  c.change = {-0.42, 0.0, 0.0, 0.0};
  const double u = 0.05 * 0.4;
  const CurveVector predicted{-0.4, 0.0, 0.0, 0.0};
  CHECK_THAT(PatternLikelihood(c).at(predicted).misfit,
             WithinRel(0.02 * 0.02 / (u * u + 1e-6), 1e-9));
}

TEST_CASE("pattern_likelihood: fits by the F distribution of the figures left") {
  const PatternLikelihood likelihood(two(0.01, 0.01, 0.0, 10.0));
  const double bound = 2.0 * f_quantile(0.99, 2.0, 10.0);
  CHECK(likelihood.fits(0.999 * bound, 0));
  CHECK_FALSE(likelihood.fits(1.001 * bound, 0));
  // One figure and one size: nothing is left to contradict.
  CHECK(likelihood.fits(1e9, 2));
}

TEST_CASE("pattern_likelihood: the average over sizes by hand") {
  CurveChanges c = two(0.01, 0.01, 0.0, endless);
  c.change = {-0.03, 0.0, 0.0, 0.0};
  const PatternLikelihood likelihood(c);
  const std::vector<PatternPoint> points{{0.0, {}}, {1.0, {-0.1, 0.0, 0.0, 0.0}}};
  const PatternFit fit = fit_pattern(likelihood, CurvePattern::shunt, points);
  // Ten middles of tenths between the points; the best is the one at 0.25 or 0.35.
  double sum = 0.0;
  for (int i = 0; i < 10; ++i)
    sum += std::exp(likelihood.at({-0.1 * (i + 0.5) / 10.0, 0.0, 0.0, 0.0}).log_likelihood);
  CHECK_THAT(fit.log_likelihood, WithinRel(std::log(sum / 10.0), 1e-12));
  CHECK_THAT(fit.size, WithinAbs(0.3, 0.051));
  CHECK(fit.fits);
}

TEST_CASE("pattern_likelihood: nothing lies in a jump") {
  CurveChanges c = two(0.01, 0.01, 0.0, endless);
  c.change = {-0.2, 0.0, 0.0, 0.0};
  const std::vector<PatternPoint> points{{0.0, {}}, {1.0, {-0.4, 0.0, 0.0, 0.0}}};
  const PatternFit fit = fit_pattern(PatternLikelihood(c), CurvePattern::part_of_one_cell, points);
  CHECK((fit.predicted[0] == 0.0 || fit.predicted[0] == -0.4));
}
