// JCGM 101:2008 (Supplement 1 to the GUM), worked examples of clause 9, and its
// clauses 7.9.2, 7.9.4 and 8; one case of a guide of a national laboratory. The document itself
// could not be read: each test says whether its figures were read in a published reproduction,
// computed or remembered.
#include <algorithm>
#include <cmath>
#include <limits>
#include <numbers>
#include <vector>

#include "hailwright/metrology/monte_carlo.hpp"
#include "hailwright/metrology/statistics.hpp"
#include "support/catch.hpp"

using namespace hailwright;

namespace {

constexpr double infinite = std::numeric_limits<double>::infinity();
/// Half-width of the 95 % interval of a normal distribution, in standard deviations.
constexpr double k95 = 1.959963984540054;

/// Trials of a model of independent inputs of these shapes, given to it as columns of draws with
/// mean 0 and standard deviation 1.
template <std::size_t n, class Model>
SampledDistribution draw(const std::array<Shape, n>& shapes, Model model,
                         std::int64_t trials = 1'000'000) {
  const BlockSampler sampler = [&](RandomStream& random, std::span<double> values) {
    std::vector<double> columns(n * values.size());
    const double* x[n];
    for (std::size_t i = 0; i < n; ++i) {
      const std::span<double> column = std::span(columns).subspan(i * values.size(), values.size());
      fill_standard(random, shapes[i], infinite, column);
      x[i] = column.data();
    }
    double* const y = values.data();
    const std::size_t size = values.size();
    for (std::size_t t = 0; t < size; ++t)
      y[t] = model(x, t);
  };
  MonteCarloPlan plan;
  plan.trials = trials;
  return run_monte_carlo(sampler, plan).values;
}

double sum_of_four(const double* const* x, std::size_t t) {
  return x[0][t] + x[1][t] + x[2][t] + x[3][t];
}

void check_interval(const SampledDistribution& d, double low, double high, double tolerance) {
  CHECK_THAT(d.quantile(0.025), WithinAbs(low, tolerance));
  CHECK_THAT(d.quantile(0.975), WithinAbs(high, tolerance));
}

/// Clause 8: both ends of the first-order interval within the numerical tolerance.
bool validated(double d_low, double d_high, double standard_u, int digits) {
  const double delta = numerical_tolerance(standard_u, digits);
  return d_low <= delta && d_high <= delta;
}

/// 9.4: the sum of two squares, in units of 1e-6. Both inputs have u = 0.005; x2 = 0.
struct SquaresCase {
  double correlation, x1;
  double mean_published, u_published, low_published, high_published;
  double u_exact, low_computed, high_computed;
  double first_order_u;
  std::int64_t trials = 1'000'000;
};

void check_squares(const SquaresCase& c) {
  const double u = 0.005;
  const double r = c.correlation;
  const double rest = std::sqrt(1.0 - r * r);
  const auto model = [&](const double* const* z, std::size_t t) {
    const double x1 = c.x1 + u * z[0][t];
    const double x2 = u * (r * z[0][t] + rest * z[1][t]);
    return 1e6 * (x1 * x1 + x2 * x2);
  };
  const SampledDistribution d = draw(std::array{Shape::normal, Shape::normal}, model, c.trials);
  // Mean x1^2 + 2 u^2, variance 4 u^2 x1^2 + 4 u^4 (1 + r^2): computed.
  const double mean_exact = 1e6 * (c.x1 * c.x1 + 2.0 * u * u);
  const double variance = c.x1 * c.x1 + u * u * (1.0 + r * r);
  CHECK_THAT(c.u_exact, WithinRel(2e6 * u * std::sqrt(variance), 1e-12));
  CHECK_THAT(d.mean(), WithinRel(mean_exact, 0.005));
  CHECK_THAT(d.sd(), WithinRel(c.u_exact, 0.005));
  // Printed digits, with the noise of a million trials beside: 4 standard errors of the mean.
  CHECK_THAT(d.mean(), WithinAbs(c.mean_published, 1.0 + 4.0 * c.u_exact / 1000.0));
  CHECK_THAT(d.sd(), WithinAbs(c.u_published, 0.5 + 0.005 * c.u_exact));
  const auto [low, high] = d.shortest(0.95);
  CHECK_THAT(low, WithinAbs(c.low_computed, 10.0));
  CHECK_THAT(high, WithinAbs(c.high_computed, 10.0));
  CHECK_THAT(low, WithinAbs(c.low_published, 10.0));
  CHECK_THAT(high, WithinAbs(c.high_published, 10.0));
  // First order: u = 2 |x1| u, far off where x1 is small.
  CHECK_THAT(2e6 * c.x1 * u, WithinAbs(c.first_order_u, 1e-9));
  const double y = 1e6 * c.x1 * c.x1;
  CHECK_FALSE(validated(std::abs(y - k95 * c.first_order_u - low),
                        std::abs(y + k95 * c.first_order_u - high), c.u_exact, 2));
}

}  // namespace

// 9.2.2, table 2. Read in the tests of an open uncertainty calculator: 95 % interval +-3.92, u 2.0;
// half-width computed. Tolerance 0.02 at 10^6 trials.
TEST_CASE("check s1_922_normals: the sum of four standard normals") {
  std::array<Shape, 4> shapes;
  shapes.fill(Shape::normal);
  const SampledDistribution d = draw(shapes, sum_of_four);
  CHECK_THAT(d.mean(), WithinAbs(0.0, 0.01));
  CHECK_THAT(d.sd(), WithinAbs(2.0, 0.01));
  check_interval(d, -3.919927969080108, 3.919927969080108, 0.02);
  check_interval(d, -3.92, 3.92, 0.02);
  CHECK(validated(std::abs(d.quantile(0.025) + 2.0 * k95), std::abs(d.quantile(0.975) - 2.0 * k95),
                  2.0, 2));
}

// 9.2.3, table 3. Read as above: +-3.88, first order +-3.92. Exact half-width computed,
// 2 sqrt(3) (2 - (3/5)^(1/4)). Tolerance 0.01 at 10^6 trials.
TEST_CASE("check s1_923_rect: the sum of four rectangular quantities") {
  std::array<Shape, 4> shapes;
  shapes.fill(Shape::rectangular);
  const SampledDistribution d = draw(shapes, sum_of_four);
  const double half = 2.0 * std::sqrt(3.0) * (2.0 - std::pow(0.6, 0.25));
  CHECK_THAT(half, WithinAbs(3.88, 0.005));
  CHECK_THAT(d.mean(), WithinAbs(0.0, 0.01));
  CHECK_THAT(d.sd(), WithinAbs(2.0, 0.01));
  check_interval(d, -half, half, 0.01);
  CHECK_THAT(2.0 * k95, WithinAbs(3.92, 0.005));
}

// 9.2.4, table 4. Published digits from memory (u 10.1, +-17.0, first order +-19.9); exact ones
// computed by inclusion and exclusion. Tolerance 0.05.
TEST_CASE("check s1_924_widths: one rectangle ten times as wide as the others") {
  std::array<Shape, 4> shapes;
  shapes.fill(Shape::rectangular);
  const SampledDistribution d = draw(shapes, [](const double* const* x, std::size_t t) {
    return x[0][t] + x[1][t] + x[2][t] + 10.0 * x[3][t];
  });
  CHECK_THAT(d.sd(), WithinAbs(10.14889156509222, 0.05));
  CHECK_THAT(d.sd(), WithinAbs(10.1, 0.05 + 0.01));
  check_interval(d, -17.015814099870163, 17.015814099870163, 0.05);
  const double first_order = k95 * std::sqrt(103.0);
  CHECK_THAT(first_order, WithinAbs(19.891461950583093, 1e-9));
  const double off = std::abs(d.quantile(0.975) - first_order);
  CHECK_FALSE(validated(off, off, d.sd(), 2));
}

// 9.3, table 6: calibration of a mass. Published digits from memory; the exact standard deviation
// 0.0754797 computed agrees with them. Tolerances: u 0.0002, interval ends 0.002, first order 5e-5.
TEST_CASE("check s1_93_mass: calibration of a mass in air") {
  const double root3 = std::numbers::sqrt3;
  const std::array<Shape, 5> shapes{Shape::normal, Shape::normal, Shape::rectangular,
                                    Shape::rectangular, Shape::rectangular};
  const SampledDistribution d = draw(shapes, [=](const double* const* x, std::size_t t) {
    const double reference = 100'000.0 + 0.050 * x[0][t];
    const double added = 1.234 + 0.020 * x[1][t];
    const double air_less_1_2 = 0.10 / root3 * x[2][t];
    const double density = 8000.0 + 1000.0 / root3 * x[3][t];
    const double reference_density = 8000.0 + 50.0 / root3 * x[4][t];
    return (reference + added) * (1.0 + air_less_1_2 * (1.0 / density - 1.0 / reference_density)) -
           100'000.0;
  });
  CHECK_THAT(d.mean(), WithinAbs(1.2341, 0.0003));
  CHECK_THAT(d.sd(), WithinAbs(0.0754, 0.0002));
  CHECK_THAT(d.sd(), WithinAbs(0.07547974, 0.0002));
  check_interval(d, 1.0844039662861178, 1.3835905572130287, 0.002);
  const auto [low, high] = d.shortest(0.95);
  CHECK_THAT(low, WithinAbs(1.0834, 0.002));
  CHECK_THAT(high, WithinAbs(1.3825, 0.002));
  // To first order the air has no part, since both densities are expected to be the same.
  const double u_first = std::hypot(0.050, 0.020);
  CHECK_THAT(u_first, WithinAbs(0.05385164807134504, 1e-12));
  CHECK_THAT(1.234 - k95 * u_first, WithinAbs(1.1285, 5e-5));
  CHECK_THAT(1.234 + k95 * u_first, WithinAbs(1.3395, 5e-5));
  // To second order it has that of its product with the difference of the reciprocals.
  const double reciprocals = std::hypot(1000.0 / root3, 50.0 / root3) / (8000.0 * 8000.0);
  const double u_second = std::hypot(u_first, 100'001.234 * 0.10 / root3 * reciprocals);
  // The case leaves the 1.234 mg beside the 100 g out of the product.
  CHECK_THAT(u_second, WithinAbs(0.07496302618717371, 1e-6));
  const auto off = [low = low, high = high](double u) {
    return std::pair{std::abs(1.234 - k95 * u - low), std::abs(1.234 + k95 * u - high)};
  };
  const auto [low_first, high_first] = off(u_first);
  CHECK_THAT(low_first, WithinAbs(0.0451, 0.002));
  CHECK_THAT(high_first, WithinAbs(0.0430, 0.002));
  CHECK_FALSE(validated(low_first, high_first, d.sd(), 1));
  const auto [low_second, high_second] = off(u_second);
  CHECK_THAT(low_second, WithinAbs(0.0036, 0.002));
  CHECK_THAT(high_second, WithinAbs(0.0015, 0.002));
  CHECK(validated(low_second, high_second, d.sd(), 1));
}

// 9.4, tables 8 and 9. Published digits from memory; mean and u exact; shortest ends computed with
// 10^7 trials. Tolerances: mean and u 0.5 %, ends 10 (units 1e-6).
TEST_CASE("check s1_94_rho0p0_x10p0: sum of squares at zero") {
  check_squares({0.0, 0.0, 50, 50, 0, 150, 50.0, 3.638548167100868e-06, 149.85094840202248, 0.0});
}

TEST_CASE("check s1_94_rho0p0_x10p01: sum of squares at 0.010") {
  check_squares({0.0, 0.01, 150, 112, 0, 367, 111.80339887498948, 9.44939134836062e-06,
                 365.9241350573198, 100.0});
}

// Ends of a shortest interval are noisy: over 40 seeds these scatter by 5 at 10^6 trials and by 3
// at 4 * 10^6, which the tolerance asks for.
TEST_CASE("check s1_94_rho0p0_x10p05: sum of squares at 0.050") {
  check_squares({0.0, 0.05, 2551, 502, 1590, 3543, 502.49378105604455, 1594.1017887344965,
                 3550.123635864522, 500.0, 4'000'000});
}

TEST_CASE("check s1_94_rho0p9_x10p0: correlated sum of squares at zero") {
  check_squares({0.9, 0.0, 50, 67, 0, 185, 67.26812023536856, 8.750237985593715e-07,
                 184.88253738728488, 0.0});
}

TEST_CASE("check s1_94_rho0p9_x10p01: correlated sum of squares at 0.010") {
  check_squares({0.9, 0.01, 150, 121, 13, 398, 120.5197079319395, 12.822331958374203,
                 397.6452761121958, 100.0});
}

// 7.9.2. Rule read in two open implementations, examples computed. Tolerance 1e-15.
TEST_CASE("check s1_numerical_tolerance: half of the last digit of u") {
  CHECK_THAT(numerical_tolerance(0.00035, 2), WithinAbs(5e-6, 1e-15));
  CHECK_THAT(numerical_tolerance(10.0, 2), WithinAbs(0.5, 1e-15));
  CHECK_THAT(numerical_tolerance(2.0, 2), WithinAbs(0.05, 1e-15));
  CHECK_THAT(numerical_tolerance(0.0754, 1), WithinAbs(0.005, 1e-15));
  CHECK_THAT(numerical_tolerance(0.0754, 2), WithinAbs(0.0005, 1e-15));
  CHECK_THAT(numerical_tolerance(0.008, 1), WithinAbs(0.0005, 1e-15));
  // Rounding carries: to one digit 0.00996 is 1e-2.
  CHECK_THAT(numerical_tolerance(0.00996, 1), WithinAbs(0.005, 1e-15));
  CHECK(validated(0.005, 0.005, 0.0754, 1));
  CHECK_FALSE(validated(0.005, 0.0051, 0.0754, 1));
}

// 7.9.4. Procedure read in an open implementation; the factor 2 and M >= 10^4 from memory.
TEST_CASE("check s1_adaptive: sequences of trials until the figures are stable") {
  // J = 100/(1 - p) trials are 2000 at 95 % and 10 000 at 99 %, M = max(J, 10 000).
  CHECK(std::ceil(100.0 / (1.0 - 0.95) * (1.0 - 1e-9)) == 2000.0);
  CHECK(sequence_trials(0.95) == 10'000);
  CHECK(sequence_trials(0.99) == 10'000);
  const BlockSampler sampler = [](RandomStream& random, std::span<double> values) {
    fill_standard(random, Shape::rectangular, infinite, values);
    for (double& v : values)
      v *= 4.0;
  };
  MonteCarloPlan plan;
  plan.adaptive = true;
  plan.digits = 2;
  const MonteCarloRun run = run_monte_carlo(sampler, plan);
  REQUIRE(run.stable);
  // The loop by hand, on sorted sequences.
  std::vector<double> all;
  std::vector<double> figures[4];
  for (std::uint64_t h = 0;; ++h) {
    std::vector<double> values(10'000);
    RandomStream random(plan.seed, h);
    sampler(random, values);
    std::sort(values.begin(), values.end());
    all.insert(all.end(), values.begin(), values.end());
    figures[0].push_back(mean(values));
    figures[1].push_back(*sample_sd(values));
    figures[2].push_back(values[249]);
    figures[3].push_back(values[9749]);
    if (h == 0) continue;
    const double delta = numerical_tolerance(*sample_sd(all), 2);
    CHECK(delta == 0.05);
    if (std::all_of(std::begin(figures), std::end(figures), [&](const std::vector<double>& z) {
          return 2.0 * *sample_sd(z) / std::sqrt(static_cast<double>(z.size())) <= delta;
        }))
      break;
  }
  CHECK(run.values.trials() == static_cast<std::int64_t>(all.size()));
  CHECK_THAT(run.values.mean(), WithinAbs(mean(all), 0.05));
  CHECK_THAT(run.values.sd(), WithinRel(*sample_sd(all), 1e-5));
}

// A guide of a national laboratory as used in the tests of an open uncertainty calculator (read):
// -0.665, 0.606, shortest [-1.895, 0.095]; first order -0.511, 0.481. Exact: mean and sd by
// integration, shortest [ln 0.15, ln 1.1]. Tolerance 0.003 at 10^6 trials.
TEST_CASE("check shortest_ln_uniform: logarithm of a rectangular quantity") {
  const double u = 0.5 / std::numbers::sqrt3;
  const SampledDistribution d =
      draw(std::array{Shape::rectangular},
           [=](const double* const* x, std::size_t t) { return std::log(0.6 + u * x[0][t]); });
  CHECK_THAT(d.mean(), WithinAbs(-0.664900292916, 0.003));
  CHECK_THAT(d.sd(), WithinAbs(0.606226697429, 0.003));
  CHECK_THAT(d.mean(), WithinAbs(-0.665, 0.002));
  CHECK_THAT(d.sd(), WithinAbs(0.606, 0.002));
  const auto [low, high] = d.shortest(0.95);
  CHECK_THAT(low, WithinAbs(std::log(0.15), 0.003));
  CHECK_THAT(high, WithinAbs(std::log(1.1), 0.003));
  CHECK_THAT(low, WithinAbs(-1.895, 0.002 + 0.003));
  CHECK_THAT(high, WithinAbs(0.095, 0.002));
  // The symmetric one lies elsewhere: the test can tell them apart.
  check_interval(d, std::log(0.125), std::log(1.075), 0.01);
  CHECK_THAT(std::log(0.6), WithinAbs(-0.511, 0.0005));
  CHECK_THAT(u / 0.6, WithinAbs(0.481, 0.0005));
}
