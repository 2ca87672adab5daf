#include "hailwright/evaluate/loss_pattern.hpp"

#include <algorithm>
#include <cmath>

#include "evaluate/pattern_weighing.hpp"
#include "hailwright/core/contract.hpp"

namespace hailwright {

const PatternFit& LossPattern::no_change() const {
  const auto fit = std::find_if(fits.begin(), fits.end(),
                                [](const PatternFit& f) { return !f.pattern.has_value(); });
  expects(fit != fits.end(), "no change among the fits");
  return *fit;
}

double times_better(const PatternFit& better, const PatternFit& worse) {
  return std::exp(better.log_likelihood - worse.log_likelihood);
}

std::optional<LossPattern> find_loss_pattern(const Test& test) {
  if (!test.record.curves) return std::nullopt;
  const AssumedPanel panel = assumed_panel(curve_ratings(test, *test.record.curves));
  const CurveChanges changes = curve_changes(test, *test.record.curves, panel);
  if (changes.read.empty()) return std::nullopt;
  return weigh_patterns(changes, panel, pattern_table(panel));
}

std::optional<bool> agrees_with_power(const LossPattern& pattern, const PowerResult& power) {
  if (!pattern.power || !power.estimated()) return std::nullopt;
  const double difference = pattern.power->log_change - power.estimate.lambda;
  const double u = std::hypot(pattern.power->standard_u, power.estimate.u_lambda);
  return std::abs(difference) <= 2.0 * u;
}

}  // namespace hailwright
