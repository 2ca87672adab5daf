#pragma once

#include <optional>
#include <string>
#include <vector>

#include "hailwright/evaluate/power.hpp"
#include "hailwright/model/record.hpp"
#include "hailwright/physics/curve_patterns.hpp"

// Which pattern the change of the curve's figures fits, in terms of likelihood. It decides nothing
// else, and a pattern is never more than a suggestion: other damage can look the same.

namespace hailwright {

/// Where the words of a pattern begin [ours].
namespace pattern_bounds {
/// A pattern is named when it fits so many times better than no change. In unchanged panels that
/// happens at most once in so many tests for each pattern (Markov's inequality), if the stated
/// uncertainties are right.
inline constexpr double over_nothing = 20.0;
/// Patterns whose likelihoods are nearer than this are not told apart.
inline constexpr double told_apart = 10.0;
/// How seldom a true pattern would lie so far off: beyond that it does not fit.
inline constexpr double misfit_risk = 0.01;
/// Standard uncertainty of what an assumed panel predicts for a figure, as a share of its largest
/// predicted change.
inline constexpr double prediction_share = 0.05;
/// Standard deviations of one reading where repeats show none.
inline constexpr double voltage_scatter = 0.005, current_scatter = 0.01;
}  // namespace pattern_bounds

/// One cause of uncertainty and what it does to the changes of the logarithms.
struct CurveInput {
  std::string name;  ///< "voltmeter, between the stages"
  CurveVector u{};   ///< signed standard uncertainties; alike signs add in all
};

/// The change of one figure from before to after, both normalised.
struct CurveChange {
  CurveFigure figure = CurveFigure::open_voltage;
  int before = 0, after = 0;                   ///< readings
  double mean_before = 0.0, mean_after = 0.0;  ///< geometric means, normalised [V or A]
  double log_change = 0.0, standard_u = 0.0, degrees_of_freedom = 0.0;
  Ratio low, high;  ///< of the relative change at 95 %
};

/// How a pattern fits; without one, "no change".
struct PatternFit {
  std::optional<CurvePattern> pattern;
  double size = 0.0;          ///< the likeliest, in the unit of the pattern
  CurveVector predicted{};    ///< changes of the logarithms at that size
  double log_likelihood = 0;  ///< averaged over all sizes, each alike likely
  double misfit = 0.0;        ///< squared distance at that size, in units of the uncertainty
  bool fits = true;
};

enum class PatternWord { named, alike, nothing_resolvable, none_fits };

/// Change of the maximum power by these figures, log and relative.
struct CurvePower {
  double log_change = 0.0, standard_u = 0.0;
  Ratio low, high;  ///< relative change at 95 %
};

struct LossPattern {
  AssumedPanel panel;
  std::vector<CurveChange> changes;    ///< of what was read before and after
  std::vector<CurveFigure> missing;    ///< read only once, or never
  std::vector<CurvePattern> left_out;  ///< what this panel cannot have, as far as is known
  std::vector<CurveInput> inputs;
  double degrees_of_freedom = 0.0;
  bool scatter_assumed = false;      ///< too few repeats to observe it
  std::vector<std::string> assumed;  ///< what was taken where nothing was stated, in words
  std::vector<PatternFit> fits;      ///< best first, "no change" among them
  PatternWord word = PatternWord::nothing_resolvable;
  std::vector<CurvePattern> named;  ///< one where named, those that fit alike where alike
  /// Figures not read in which those that fit alike would differ by 2 % or more.
  std::vector<CurveFigure> would_tell;
  std::optional<CurvePower> power;
  bool voltage_kept = false;  ///< the power fell, and open-circuit voltage was not shown to

  [[nodiscard]] const PatternFit& no_change() const;
};

/// How many times better the first fits than the second.
double times_better(const PatternFit& better, const PatternFit& worse);

/// Nothing where no figure of the curve was read before and after.
std::optional<LossPattern> find_loss_pattern(const Test& test);

/// Whether the change of power by the curve and the one judged lie within what both leave open: two
/// standard uncertainties of their difference [ours]. Nothing where one of them is missing.
std::optional<bool> agrees_with_power(const LossPattern& pattern, const PowerResult& power);

}  // namespace hailwright
