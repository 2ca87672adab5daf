#pragma once

#include <vector>

#include "evaluate/curve_changes.hpp"

namespace hailwright {

/// Likelihood of changes of the figures under what a pattern predicts: a multivariate t whose
/// degrees of freedom are those of the scatter, raised by as much as the rest outweighs it (after
/// Welch and Satterthwaite [ours]).
class PatternLikelihood {
public:
  explicit PatternLikelihood(const CurveChanges& changes);

  struct At {
    double log_likelihood = 0.0;
    double misfit = 0.0;  ///< squared distance in units of the uncertainty
  };
  /// @param predicted  changes of the logarithms of all four figures
  [[nodiscard]] At at(const CurveVector& predicted) const;
  [[nodiscard]] double degrees_of_freedom() const { return dof_; }
  /// Whether a true prediction would lie so far off more often than `misfit_risk`.
  /// @param fitted  sizes that were fitted
  [[nodiscard]] bool fits(double misfit, int fitted) const;

private:
  [[nodiscard]] std::vector<std::vector<double>> covariance(double prediction_u) const;
  const CurveChanges& changes_;
  std::vector<std::size_t> read_;
  double dof_;
};

/// The pattern at its likeliest size, and its likelihood averaged over all sizes, each alike
/// likely. Between points the changes are straight lines, but for jumps.
PatternFit fit_pattern(const PatternLikelihood& likelihood, CurvePattern pattern,
                       const std::vector<PatternPoint>& points);
PatternFit fit_no_change(const PatternLikelihood& likelihood);

}  // namespace hailwright
