#pragma once

#include <span>
#include <vector>

#include "hailwright/core/quantity.hpp"
#include "hailwright/metrology/budget.hpp"

namespace hailwright {

/// Answers to the two questions about a loss, and why there may be none (MEASUREMENT M4, M5).
enum class Answer { yes, no, undecided };

/// The loss that lambda = ln(after/before) stands for: 1 - e^lambda. A gain beyond e^50, which only
/// an error without any bound can give, is cut off there, so that it fits a number [ours].
double loss_at(double lambda);

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

  friend bool operator==(const LossAnswers&, const LossAnswers&) = default;
};
LossAnswers decide_loss(const LossEstimate& estimate, Ratio limit);
/// The same for an interval of the loss that was found otherwise, by random trials.
LossAnswers decide_loss(Ratio low, Ratio high, Ratio limit);

/// Simple acceptance (M4): whether the estimate alone is beyond the limit. Near the limit it is
/// wrong in up to half of all tests. A gain stays undecided.
Answer decide_simply(const LossEstimate& estimate, Ratio limit);

/// What two methods say together: an answer in which they differ is undecided (M7). Whether the
/// power was gained is for the first to say, which decides.
LossAnswers agreed(const LossAnswers& deciding, const LossAnswers& checking);

/// L_D: the smallest loss that a test with this budget would have called real with probability
/// 1 - beta (M4).
Ratio smallest_shown_loss(const Combined& all, const Combined& observed, double alpha, double beta);

/// The same for a type A part that is so many times as large as observed, beside the rest of the
/// budget: one loss for each factor.
std::vector<Ratio> smallest_shown_losses(const Combined& observed, const Combined& rest,
                                         std::span<const double> factors, double alpha,
                                         double beta);

/// Chance that an interval with this budget clears a bound which the true lambda is so far beyond;
/// below zero when it lies on the wrong side. By the non-central t, and by the guard of M2: the
/// smaller of its two conditions' chances.
double chance_cleared(const Combined& all, const Combined& observed, double alpha, double margin);

/// Chance that a true loss is called real; the same two conditions as the smallest loss shown.
double chance_shown(const Combined& all, const Combined& observed, double alpha, double loss);

}  // namespace hailwright
