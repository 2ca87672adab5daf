#pragma once

#include <optional>

#include "hailwright/core/quantity.hpp"
#include "hailwright/metrology/budget.hpp"

namespace hailwright {

/// Answers to the two questions about a loss, and why there may be none (MEASUREMENT M4, M5).
enum class Answer { yes, no, undecided };

/// A loss of power known with its uncertainty. It is estimated as lambda = ln(after/before); the
/// loss is L = 1 - e^lambda, and the interval is made in lambda and transformed.
struct LossEstimate {
  double lambda = 0.0;
  double u_lambda = 0.0;
  double degrees_of_freedom = 0.0;  ///< effective; infinity when nothing was observed by repeats
  double expanded = 0.0;            ///< U: half-width of the interval in lambda
  double alpha = 0.025;  ///< risk of each wrong statement; the interval's level is 1 - 2 alpha

  [[nodiscard]] Ratio loss() const;
  [[nodiscard]] Ratio u_loss() const;  ///< first order: e^lambda u(lambda)
  [[nodiscard]] Ratio low() const;     ///< lower end of the loss
  [[nodiscard]] Ratio high() const;
  /// Probability that the loss is above a limit, after the t distribution of lambda.
  [[nodiscard]] double probability_above(Ratio limit) const;
  /// L_C: a loss estimated above this is called real.
  [[nodiscard]] Ratio real_above() const;
};

/// The estimate from the whole budget, with the guard of MEASUREMENT M2: a growing type B part must
/// not narrow the interval below what the type A part alone gives, so
/// U = max(t(nu_eff) u, t(nu_A) u_A).
LossEstimate estimate_loss(double lambda, const Combined& all, const Combined& observed,
                           double alpha);

/// The answers that one interval gives (M4): real if low > 0; beyond if low > limit; within if
/// high <= limit and not high < 0. `gained` (high < 0) makes the result not valid (M5).
struct LossAnswers {
  Answer real = Answer::undecided;    ///< is there a drop? no: never, absence is not shown
  Answer beyond = Answer::undecided;  ///< is it beyond the limit? yes: beyond; no: within
  bool gained = false;
};
LossAnswers decide_loss(const LossEstimate& estimate, Ratio limit);

/// L_D: the smallest loss that a test with this budget would have called real with probability
/// 1 - beta (M4).
Ratio smallest_shown_loss(const Combined& all, const Combined& observed, double alpha, double beta);

}  // namespace hailwright
