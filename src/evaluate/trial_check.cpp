#include "evaluate/loss_sampler.hpp"

#include <algorithm>
#include <cmath>
#include <limits>

#include "hailwright/metrology/loss_decision.hpp"

namespace hailwright {

namespace {

/// Fewest degrees of freedom among the errors that are drawn as t: the heaviest tail. Contributions
/// below a thousandth of u do not move it [ours].
double heaviest_tail(const PowerModel& model, double u_lambda) {
  double fewest = std::numeric_limits<double>::infinity();
  for (const BudgetRow& row : model.budget()) {
    const bool counts = std::abs(row.contribution()) > 1e-3 * u_lambda;
    if (counts && row.input.shape == Shape::normal)
      fewest = std::min(fewest, row.input.degrees_of_freedom);
  }
  return fewest;
}

/// Share of the trials whose loss is above a limit.
double share_above(const SampledDistribution& lambda, Ratio limit) {
  return limit.si() < 1.0 ? 1.0 - lambda.above(std::log1p(-limit.si())) : 0.0;
}

/// Clause 8 of JCGM 101:2008 at both ends. A billionth of the power is no difference: where next to
/// nothing is uncertain, rounding would be one.
int digits_agreed(const LossEstimate& estimate, Ratio low, Ratio high) {
  const double off = std::max(std::abs(estimate.low().si() - low.si()),
                              std::abs(estimate.high().si() - high.si()));
  if (off < 1e-9) return 2;
  const double u = estimate.u_loss().si();
  for (const int digits : {2, 1}) {
    if (u > 0.0 && off <= numerical_tolerance(u, digits)) return digits;
  }
  return 0;
}

}  // namespace

MonteCarloCheck check_by_trials(const PowerModel& model, const LossEstimate& estimate, Ratio limit,
                                const CheckPlan& plan) {
  const double nu = heaviest_tail(model, estimate.u_lambda);
  MonteCarloPlan runs;
  runs.seed = plan.seed;
  runs.trials = plan.trials;
  runs.coverage = 1.0 - 2.0 * estimate.alpha;
  runs.adaptive = plan.adaptive;
  runs.ends_only = nu <= 4.0;
  runs.threads = plan.threads;
  runs.progress = plan.progress;
  const MonteCarloRun run = run_monte_carlo(loss_sampler(model), runs);

  const SampledDistribution& lambda = run.values;
  const auto quantile = [&](double p) { return Ratio::from_si(loss_at(lambda.quantile(p))); };
  MonteCarloCheck check;
  check.trials = lambda.trials();
  check.seed = plan.seed;
  check.adaptive = plan.adaptive;
  check.capped = plan.adaptive && !run.stable;
  check.median = quantile(0.5);
  if (nu > 2.0) {
    check.mean = Ratio::from_si(lambda.mean(loss_at));
    check.standard_u = Ratio::from_si(lambda.sd(loss_at));
  }
  // The loss falls as lambda rises.
  check.low = quantile(1.0 - estimate.alpha);
  check.high = quantile(estimate.alpha);
  if (plan.shortest) {
    const auto [low, high] = lambda.shortest(runs.coverage, loss_at);
    check.shortest = {Ratio::from_si(low), Ratio::from_si(high)};
  }
  check.above_zero = share_above(lambda, Ratio{});
  check.above_limit = share_above(lambda, limit);
  check.agreed_digits = digits_agreed(estimate, check.low, check.high);
  check.answers = decide_loss(check.low, check.high, limit);
  check.disagrees = check.answers != decide_loss(estimate, limit);
  return check;
}

}  // namespace hailwright
