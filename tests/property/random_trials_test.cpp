// Random trials (JCGM 101) against what is known without them.
//
// A comparison by chance fails by chance. Bounds here are 5.5 standard errors: 3.8e-8 two-sided for
// a normal estimate, so that all comparisons of a run together (some 150) fail falsely once in
// 100 000 seeds; the seed in use is fixed.
#include <cmath>
#include <numbers>

#include "evaluate/loss_sampler.hpp"
#include "hailwright/metrology/distributions.hpp"
#include "hailwright/metrology/monte_carlo.hpp"
#include "hailwright/metrology/random.hpp"
#include "hailwright/physics/impact.hpp"
#include "support/catch.hpp"
#include "support/drawn_test.hpp"
#include "support/property.hpp"

namespace hailwright::testing {

namespace {

constexpr double errors_allowed = 5.5;
constexpr std::int64_t trials_made = 20'000;
const double root_of_trials = std::sqrt(static_cast<double>(trials_made));

SampledDistribution draws_of(const BlockSampler& sampler, std::uint64_t seed) {
  MonteCarloPlan plan;
  plan.seed = seed;
  plan.trials = trials_made;
  return run_monte_carlo(sampler, plan).values;
}

/// Standard error of a quantile, sqrt(p (1 - p) / n) over the density there.
double error_of_quantile(double p, double density) {
  return std::sqrt(p * (1.0 - p)) / (root_of_trials * density);
}

double normal_density(double z) {
  return std::exp(-0.5 * z * z) / std::sqrt(2.0 * std::numbers::pi);
}

/// lambda is a constant and so many errors that only add up.
PowerModel sum_of(const std::vector<BudgetInput>& inputs) {
  PowerModel model;
  NormalisedReading reading{};
  reading.power = Power::from_si(80.0);
  reading.irradiance = Irradiance::from_si(900.0);
  reading.back = TemperaturePoint::from_celsius(45.0);
  reading.gamma = TemperatureCoefficient::from_si(-0.004);
  model.terms.push_back({reading, 1.0, {}, 0});
  model.inputs = inputs;
  for (std::size_t i = 0; i < inputs.size(); ++i)
    model.terms.front().links.push_back({ErrorSlot::factor, i});
  return model;
}

}  // namespace

TEST_CASE("Property: trials of a sum have its mean and the root of its sum of squares") {
  holds(
      "errors of any shape and size that only add up",
      [](Draw& draw) {
        std::vector<BudgetInput> inputs;
        double variance = 0.0;
        for (int i = draw.whole("errors", 1, 5); i > 0; --i) {
          const std::string name = "error " + std::to_string(i);
          BudgetInput input;
          input.id = name;
          input.standard_u = draw.magnitude(name, 1e-4, 0.05);
          input.shape = draw.one_of<Shape>(name + ", shape", {Shape::normal, Shape::rectangular,
                                                              Shape::triangular, Shape::arcsine});
          variance += input.standard_u * input.standard_u;
          inputs.push_back(input);
        }
        const PowerModel model = sum_of(inputs);
        const double u = std::sqrt(variance);
        must_be_close(combine(model.budget()).standard_u, u, 1e-12 * u, "u after GUM");
        const SampledDistribution drawn = draws_of(loss_sampler(model), draw.bits("seed"));
        must_be_close(drawn.mean(), model.lambda(), errors_allowed * u / root_of_trials, "mean");
        // No shape here has a kurtosis above 3, so the standard error of s is at most u / sqrt(2
        // n).
        must_be_close(drawn.sd(), u,
                      errors_allowed * u / (std::sqrt(2.0) * root_of_trials) + 1e-6 * u,
                      "standard deviation");
      },
      15);
}

TEST_CASE("Property: trials of observed scatter have the quantiles of t") {
  holds(
      "scatter with 1 to 30 degrees of freedom",
      [](Draw& draw) {
        PowerModel model = sum_of({});
        const double nu = draw.magnitude("degrees of freedom", 1.0, 30.0);
        const double s = draw.magnitude("scatter", 1e-4, 0.05);
        model.scatter.push_back(
            {{"scatter", "scatter", Scope::setup, Evaluation::type_a, s, nu}, 1.0});
        const SampledDistribution drawn = draws_of(loss_sampler(model), draw.bits("seed"));
        for (const double p : {0.025, 0.5, 0.975}) {
          const double t = t_quantile(p, nu);
          const double step = 1e-3 * std::max(1.0, std::abs(t));
          const double density = (t_cdf(t + step, nu) - t_cdf(t - step, nu)) / (2.0 * step);
          must_be_close(drawn.quantile(p), model.lambda() + s * t,
                        errors_allowed * s * error_of_quantile(p, density),
                        "quantile at " + std::to_string(p));
        }
      },
      15);
}

// Errors of a few per cent in a formula that is nearly linear in them: the first-order interval is
// right to the numerical tolerance of its standard uncertainty at two digits (JCGM 101:2008, 8.1,
// and 7.9.2 for the tolerance), beside what the trials leave open.
TEST_CASE("Property: trials of a comparison whose errors are normal agree with the first order") {
  holds(
      "every stated error of any size, all normal",
      [](Draw& draw) {
        DrawnKind kind = drawn_kind(draw);
        kind.stated = true;
        PowerModel model = *judged_briefly(drawn_test(draw, kind)).model;
        model.scatter.clear();
        for (BudgetInput& input : model.inputs)
          input.shape = Shape::normal;
        const double u = combine(model.budget()).standard_u;
        const double tolerance = numerical_tolerance(u, 2);
        const SampledDistribution drawn = draws_of(loss_sampler(model), draw.bits("seed"));
        for (const double p : {0.025, 0.5, 0.975}) {
          const double z = normal_quantile(p);
          must_be_close(drawn.quantile(p), model.lambda() + z * u,
                        tolerance + errors_allowed * u * error_of_quantile(p, normal_density(z)),
                        "quantile at " + std::to_string(p));
        }
      },
      10);
}

// Its moments are known exactly: for independent normal m and v with relative u a and b,
// mean 1 + b^2 and variance (1 + a^2) (1 + 6 b^2 + 3 b^4) - (1 + b^2)^2, in units of E and E^2.
TEST_CASE("Property: trials of an energy have its exact moments and the first order is near them") {
  holds(
      "E = m v^2 / 2 with u of up to 3 % each",
      [](Draw& draw) {
        const double a = draw.magnitude("u of the mass", 1e-3, 0.03);
        const double b = draw.magnitude("u of the speed", 1e-3, 0.03);
        const double mean = 1.0 + b * b;
        const double sd =
            std::sqrt((1.0 + a * a) * (1.0 + 6.0 * b * b + 3.0 * std::pow(b, 4.0)) - mean * mean);
        const Estimate<Energy> first_order = kinetic_energy(
            {Mass::from_si(2.0), Mass::from_si(2.0 * a)}, {Speed::from_si(1.0), Speed::from_si(b)});
        // Second order is 0.5 b^2 of u and less; 8.1 at two digits allows 0.5 % of u or more.
        must_be_close(first_order.standard_u.si(), sd, numerical_tolerance(sd, 2), "u after GUM");
        const SampledDistribution drawn = draws_of(
            [&](RandomStream& random, std::span<double> values) {
              for (double& value : values) {
                const double mass = 1.0 + a * random.normal();
                const double speed = 1.0 + b * random.normal();
                value = mass * speed * speed;
              }
            },
            draw.bits("seed"));
        must_be_close(drawn.mean(), mean, errors_allowed * sd / root_of_trials, "mean");
        // Skewness of up to 0.2 lifts the kurtosis to 3.1, the standard error of s by 2.5 %.
        must_be_close(drawn.sd(), sd,
                      1.03 * errors_allowed * sd / (std::sqrt(2.0) * root_of_trials),
                      "standard deviation");
      },
      15);
}

}  // namespace hailwright::testing
