#include "hailwright/metrology/loss_decision.hpp"

#include <algorithm>
#include <cmath>

#include "hailwright/core/contract.hpp"
#include "hailwright/metrology/distributions.hpp"

namespace hailwright {

namespace {

constexpr double largest_gain = 50.0;

Ratio loss_of(double lambda) {
  return Ratio::from_si(loss_at(lambda));
}

}  // namespace

double loss_at(double lambda) {
  return -std::expm1(std::min(lambda, largest_gain));
}

Ratio LossEstimate::loss() const {
  return loss_of(lambda);
}
Ratio LossEstimate::u_loss() const {
  return Ratio::from_si(std::exp(std::min(lambda, largest_gain)) * u_lambda);
}
Ratio LossEstimate::low() const {
  return loss_of(lambda + expanded);
}
Ratio LossEstimate::high() const {
  return loss_of(lambda - expanded);
}
Ratio LossEstimate::real_above() const {
  return loss_of(-expanded);
}

double LossEstimate::probability_above(Ratio limit) const {
  expects(limit.si() < 1.0, "a limit below 100 %");
  const double limit_lambda = std::log1p(-limit.si());
  if (u_lambda == 0.0) return lambda < limit_lambda ? 1.0 : 0.0;
  // Where the guard widened the interval, the same factor widens the distribution.
  const double t = t_quantile(1.0 - alpha, degrees_of_freedom);
  const double widened = std::max(1.0, expanded / (t * u_lambda));
  return t_cdf((limit_lambda - lambda) / (u_lambda * widened), degrees_of_freedom);
}

LossEstimate estimate_loss(double lambda, const Combined& all, const Combined& observed,
                           double alpha) {
  expects(alpha > 0.0 && alpha < 0.5, "estimate_loss: 0 < alpha < 0.5");
  double expanded = t_quantile(1.0 - alpha, all.degrees_of_freedom) * all.standard_u;
  if (observed.standard_u > 0.0) {
    expanded = std::max(expanded,
                        t_quantile(1.0 - alpha, observed.degrees_of_freedom) * observed.standard_u);
  }
  return {lambda, all.standard_u, all.degrees_of_freedom, expanded, alpha};
}

LossAnswers decide_loss(const LossEstimate& estimate, Ratio limit) {
  return decide_loss(estimate.low(), estimate.high(), limit);
}

LossAnswers decide_loss(Ratio low, Ratio high, Ratio limit) {
  LossAnswers answers;
  if (high < Ratio{}) {
    answers.gained = true;
    return answers;
  }
  if (low > Ratio{}) answers.real = Answer::yes;
  if (low > limit) answers.beyond = Answer::yes;
  if (high <= limit) answers.beyond = Answer::no;
  return answers;
}

Answer decide_simply(const LossEstimate& estimate, Ratio limit) {
  if (estimate.high() < Ratio{}) return Answer::undecided;
  return estimate.loss() > limit ? Answer::yes : Answer::no;
}

LossAnswers agreed(const LossAnswers& deciding, const LossAnswers& checking) {
  const auto both = [](Answer a, Answer b) { return a == b ? a : Answer::undecided; };
  return {both(deciding.real, checking.real), both(deciding.beyond, checking.beyond),
          deciding.gained};
}

Ratio smallest_shown_loss(const Combined& all, const Combined& observed, double alpha,
                          double beta) {
  double shown = detectable_noncentrality(all.degrees_of_freedom, alpha, beta) * all.standard_u;
  if (observed.standard_u > 0.0) {
    shown = std::max(shown, detectable_noncentrality(observed.degrees_of_freedom, alpha, beta) *
                                observed.standard_u);
  }
  return loss_of(-shown);
}

std::vector<Ratio> smallest_shown_losses(const Combined& observed, const Combined& rest,
                                         std::span<const double> factors, double alpha,
                                         double beta) {
  const bool guarded = observed.standard_u > 0.0;
  // The degrees of freedom of the type A part do not change with its size: found once.
  const double by_scatter =
      guarded ? detectable_noncentrality(observed.degrees_of_freedom, alpha, beta) : 0.0;
  std::vector<Ratio> losses;
  for (const double factor : factors) {
    const Combined scatter{observed.standard_u * factor, observed.degrees_of_freedom};
    const Combined all = combine(scatter, rest);
    const double by_all = detectable_noncentrality(all.degrees_of_freedom, alpha, beta);
    losses.push_back(loss_of(-std::max(by_all * all.standard_u, by_scatter * scatter.standard_u)));
  }
  return losses;
}

double chance_cleared(const Combined& all, const Combined& observed, double alpha, double margin) {
  const auto chance = [&](const Combined& c) {
    if (c.standard_u == 0.0) return margin > 0.0 ? 1.0 : 0.0;
    // The non-central t is known to be right up to a noncentrality of 1000 (distributions.cpp);
    // there the chance is 1 in all digits for every scatter that decides.
    const double noncentrality = std::min(margin / c.standard_u, 1000.0);
    if (noncentrality < -40.0) return 0.0;  // in all digits
    const double threshold = t_quantile(1.0 - alpha, c.degrees_of_freedom);
    return 1.0 - noncentral_t_cdf(threshold, c.degrees_of_freedom, noncentrality);
  };
  return observed.standard_u > 0.0 ? std::min(chance(all), chance(observed)) : chance(all);
}

double chance_shown(const Combined& all, const Combined& observed, double alpha, double loss) {
  return chance_cleared(all, observed, alpha, -std::log1p(-loss));
}

}  // namespace hailwright
