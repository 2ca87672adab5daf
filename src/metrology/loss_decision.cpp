#include "hailwright/metrology/loss_decision.hpp"

#include <algorithm>
#include <cmath>

#include "hailwright/core/contract.hpp"
#include "hailwright/metrology/distributions.hpp"

namespace hailwright {

namespace {

Ratio loss_of(double lambda) {
  return Ratio::from_si(-std::expm1(lambda));
}

}  // namespace

Ratio LossEstimate::loss() const {
  return loss_of(lambda);
}
Ratio LossEstimate::u_loss() const {
  return Ratio::from_si(std::exp(lambda) * u_lambda);
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
  LossAnswers answers;
  if (estimate.high() < Ratio{}) {
    answers.gained = true;
    return answers;
  }
  if (estimate.low() > Ratio{}) answers.real = Answer::yes;
  if (estimate.low() > limit) answers.beyond = Answer::yes;
  if (estimate.high() <= limit) answers.beyond = Answer::no;
  return answers;
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

}  // namespace hailwright
