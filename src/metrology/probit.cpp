#include "hailwright/metrology/probit.hpp"

#include <boost/math/tools/toms748_solve.hpp>

#include <algorithm>
#include <cmath>
#include <cstdint>
#include <limits>
#include <vector>

#include "hailwright/core/contract.hpp"
#include "hailwright/metrology/distributions.hpp"

namespace hailwright {

namespace {

/// Below this the series of the tail is right to 1e-12, and above it erfc is.
constexpr double far_tail = -20.0;
/// More halvings or doublings than a double has room for: every search ends.
constexpr int most_steps = 2200;
/// A step of this share changes a maximum by its square: less than a double holds.
constexpr double nearest = 1e-11;
/// A step of Newton from here leads to the square of it.
constexpr double near_top = 1e-7;
constexpr int most_halvings = 60;

/// Phi(z) = phi(z) / -z times this, z far below 0 (Abramowitz and Stegun 26.2.12, from memory).
double tail_series(double z) {
  const double s = 1.0 / (z * z);
  return 1.0 + s * (-1.0 + s * (3.0 + s * (-15.0 + s * (105.0 - s * 945.0))));
}

/// phi(z) / Phi(z).
double inverse_mills(double z) {
  if (z < far_tail) return -z / tail_series(z);
  constexpr double root = 2.50662827463100050242;  // sqrt(2 pi)
  return std::exp(-0.5 * z * z) / (root * normal_cdf(z));
}

/// Sum over the tests of ln Phi(s (a + b x)) with its first and second derivatives; s = +1 for an
/// outcome 1, -1 for 0.
struct Likelihood {
  double value = 0.0;
  double da = 0.0, db = 0.0;
  double daa = 0.0, dab = 0.0, dbb = 0.0;
};

Likelihood likelihood(std::span<const ProbitTest> tests, double a, double b) {
  Likelihood sum;
  for (const ProbitTest& test : tests) {
    const double sign = test.one ? 1.0 : -1.0;
    const double z = sign * (a + b * test.x);
    const double mills = inverse_mills(z);
    const double curvature = -std::clamp(mills * (mills + z), 0.0, 1.0);
    sum.value += log_normal_cdf(z);
    sum.da += sign * mills;
    sum.db += sign * mills * test.x;
    sum.daa += curvature;
    sum.dab += curvature * test.x;
    sum.dbb += curvature * test.x * test.x;
  }
  return sum;
}

/// Lowest and highest x of some tests.
struct Reach {
  double low = std::numeric_limits<double>::infinity();
  double high = -std::numeric_limits<double>::infinity();
  void add(double x) {
    low = std::min(low, x);
    high = std::max(high, x);
  }
};

Reach reach_of(std::span<const ProbitTest> tests) {
  Reach all;
  for (const ProbitTest& test : tests)
    all.add(test.x);
  return all;
}

/// The tests about `centre` in units of `unit`: numbers near 1 whatever the unit of x.
struct Standard {
  double centre = 0.0, unit = 1.0;
  std::vector<ProbitTest> tests;

  explicit Standard(std::span<const ProbitTest> from) : Standard(from, reach_of(from)) {}
  Standard(std::span<const ProbitTest> from, const Reach& all)
      : centre(0.5 * all.low + 0.5 * all.high),
        unit(std::max(0.5 * all.high - 0.5 * all.low, std::numeric_limits<double>::min())),
        tests(from.begin(), from.end()) {
    for (ProbitTest& test : tests)
      test.x = (test.x - centre) / unit;
  }
  [[nodiscard]] double ones() const {
    return static_cast<double>(
        std::count_if(tests.begin(), tests.end(), [](const ProbitTest& t) { return t.one; }));
  }
  [[nodiscard]] double size() const { return static_cast<double>(tests.size()); }
};

/// First and second derivative of a concave function.
struct Slope {
  double first = 0.0, second = 0.0;
};

/// Where the slope of a concave function crosses 0, between two ends on its sides: Newton's steps,
/// and halves where they would leave the ends.
template <class F>
double top_between(double low, double high, const F& slope_at) {
  double at = 0.5 * low + 0.5 * high;
  for (int i = 0; i < most_steps; ++i) {
    const Slope slope = slope_at(at);
    if (slope.first == 0.0) break;
    (slope.first > 0.0 ? low : high) = at;
    double next = at - slope.first / slope.second;
    if (!(next > low && next < high)) next = 0.5 * low + 0.5 * high;
    const bool still = std::abs(next - at) <= nearest * std::abs(at);
    at = next;
    if (still || at <= low || at >= high) break;
  }
  return at;
}

/// Where a continuous function crosses 0 between two ends on its sides (G. E. Alefeld, F. A. Potra
/// and Y. Shi, ACM Trans. Math. Softw. 21 (1995) 327, in Boost).
template <class F>
double crossing(double from, double to, const F& f) {
  namespace tools = boost::math::tools;
  std::uintmax_t steps = 500;
  const double low = std::min(from, to);
  const double high = std::max(from, to);
  const double at_low = f(low);
  const double at_high = f(high);
  if (at_low == 0.0) return low;
  if (at_high == 0.0) return high;
  const auto ends =
      tools::toms748_solve(f, low, high, at_low, at_high, tools::eps_tolerance<double>(48), steps);
  return 0.5 * ends.first + 0.5 * ends.second;
}

/// The highest of the likelihoods along b >= 0 with the quantile x_p held: eta = z_p + b (x - x_p).
/// Concave in b, so that its slope crosses 0 once.
double highest_at_quantile(const Standard& s, double z_p, double x_p) {
  const auto along = [&](double b) { return likelihood(s.tests, z_p - b * x_p, b); };
  const auto slope = [&](double b) {
    const Likelihood l = along(b);
    return Slope{l.db - l.da * x_p, l.dbb - 2.0 * l.dab * x_p + l.daa * x_p * x_p};
  };
  if (slope(0.0).first <= 0.0) return along(0.0).value;
  double far = 1.0;
  for (int i = 0; i < most_steps && slope(far).first > 0.0; ++i)
    far *= 2.0;
  return along(top_between(0.0, far, slope)).value;
}

/// The same over the intercept with the slope held.
double highest_at_slope(const Standard& s, double b) {
  const auto slope = [&](double a) {
    const Likelihood l = likelihood(s.tests, a, b);
    return Slope{l.da, l.daa};
  };
  double low = -1.0;
  double high = 1.0;
  for (int i = 0; i < most_steps && slope(low).first < 0.0; ++i)
    low *= 2.0;
  for (int i = 0; i < most_steps && slope(high).first > 0.0; ++i)
    high *= 2.0;
  return likelihood(s.tests, top_between(low, high, slope), b).value;
}

/// Log-likelihood where every test gives 1 with the same chance.
double flat_likelihood(const Standard& s, double share) {
  return s.ones() * std::log(share) + (s.size() - s.ones()) * std::log1p(-share);
}

/// Steps of this many half-widths of the data lead nowhere: what is not bounded there is not
/// bounded by them.
constexpr double longest_step = 1e9;

/// Where a profile leaves its bound, going from `start` by growing steps to one side.
template <class F>
std::optional<double> end_of_profile(double start, double step, const F& above_bound) {
  double inside = start;
  double outside = start + step;
  while (above_bound(outside) > 0.0) {
    if (std::abs(step) > longest_step) return std::nullopt;
    inside = outside;
    step *= 2.0;
    outside = start + step;
  }
  return crossing(inside, outside, above_bound);
}

/// An end in the unit of the tests.
std::optional<double> in_unit_of(const Standard& s, std::optional<double> end) {
  if (!end) return std::nullopt;
  return s.centre + s.unit * *end;
}

/// Half of the chi-squared cut below the maximum.
double lowest_within(const ProbitFit& fit, double level) {
  return fit.log_likelihood - 0.5 * chi_squared_quantile(level, 1.0);
}

}  // namespace

double log_normal_cdf(double z) {
  if (z < far_tail) {
    constexpr double half_log_two_pi = 0.91893853320467274178;
    return -0.5 * z * z - std::log(-z) - half_log_two_pi + std::log(tail_series(z));
  }
  if (z < 0.0) return std::log(normal_cdf(z));
  return std::log1p(-normal_cdf(-z));
}

ProbitObstacle probit_obstacle(std::span<const ProbitTest> tests) {
  Reach zeros;
  Reach ones;
  for (const ProbitTest& test : tests)
    (test.one ? ones : zeros).add(test.x);
  if (zeros.low > zeros.high || ones.low > ones.high) return ProbitObstacle::one_outcome;
  if (ones.low >= zeros.high) return ProbitObstacle::separated;
  return zeros.low >= ones.high ? ProbitObstacle::not_rising : ProbitObstacle::none;
}

double ProbitFit::quantile(double p) const {
  return location + scale * normal_quantile(p);
}

double ProbitFit::probability(double x) const {
  return normal_cdf((x - location) / scale);
}

std::optional<ProbitFit> fit_probit(std::span<const ProbitTest> tests) {
  expects(std::all_of(tests.begin(), tests.end(),
                      [](const ProbitTest& t) { return std::isfinite(t.x); }),
          "fit_probit: finite x");
  if (probit_obstacle(tests) != ProbitObstacle::none) return std::nullopt;
  const Standard s(tests);
  double a = normal_quantile(s.ones() / s.size());
  double b = 0.0;
  Likelihood l = likelihood(s.tests, a, b);
  // Newton on a concave function; a step that would not raise it is halved, so it always ends.
  for (int i = 0; i < most_steps; ++i) {
    const double determinant = l.daa * l.dbb - l.dab * l.dab;
    if (!(determinant > 0.0)) break;
    double step_a = -(l.da * l.dbb - l.db * l.dab) / determinant;
    double step_b = -(l.db * l.daa - l.da * l.dab) / determinant;
    // So near the top the value no longer tells up from down: the last step is taken whole.
    const bool last = std::hypot(step_a, step_b) <= near_top * std::hypot(a, b);
    Likelihood next = likelihood(s.tests, a + step_a, b + step_b);
    for (int halved = 0; !last && !(next.value > l.value) && halved < most_halvings; ++halved) {
      step_a *= 0.5;
      step_b *= 0.5;
      next = likelihood(s.tests, a + step_a, b + step_b);
    }
    if (!last && !(next.value > l.value)) break;
    a += step_a;
    b += step_b;
    l = next;
    if (last) break;
  }
  if (!(b > 0.0)) return std::nullopt;
  return ProbitFit{s.centre - s.unit * a / b, s.unit / b, l.value};
}

ProfileInterval quantile_interval(std::span<const ProbitTest> tests, const ProbitFit& fit, double p,
                                  double level) {
  expects(p > 0.0 && p < 1.0, "quantile_interval: 0 < p < 1");
  const Standard s(tests);
  const double least = lowest_within(fit, level);
  const double z_p = normal_quantile(p);
  const double estimate = (fit.quantile(p) - s.centre) / s.unit;
  const double step = 0.1 * (fit.scale / s.unit + 1.0);
  const auto above = [&](double x_p) { return highest_at_quantile(s, z_p, x_p) - least; };
  // Towards either end of the world the curve flattens to one chance for all tests: on the low side
  // any from p on, on the high side any up to p. The profile falls to that limit and not below it.
  const double share = s.ones() / s.size();
  ProfileInterval interval;
  if (flat_likelihood(s, std::max(p, share)) < least)
    interval.low = in_unit_of(s, end_of_profile(estimate, -step, above));
  if (flat_likelihood(s, std::min(p, share)) < least)
    interval.high = in_unit_of(s, end_of_profile(estimate, step, above));
  return interval;
}

ProfileInterval scale_interval(std::span<const ProbitTest> tests, const ProbitFit& fit,
                               double level) {
  const Standard s(tests);
  const double least = lowest_within(fit, level);
  const double estimate = s.unit / fit.scale;
  const auto above = [&](double b) { return highest_at_slope(s, b) - least; };
  ProfileInterval interval;
  if (const auto steepest = end_of_profile(estimate, estimate, above))
    interval.low = s.unit / *steepest;
  if (flat_likelihood(s, s.ones() / s.size()) < least)
    interval.high = s.unit / crossing(estimate, 0.0, above);
  return interval;
}

}  // namespace hailwright
