#pragma once

#include <limits>

#include "hailwright/core/quantity.hpp"

namespace hailwright {

/// A value with its standard uncertainty and the degrees of freedom that it was found with.
template <class Q>
struct Estimate {
  Q value{};
  Q standard_u{};
  double degrees_of_freedom = std::numeric_limits<double>::infinity();

  /// Standard uncertainty as a share of the value.
  [[nodiscard]] double relative_u() const { return standard_u.si() / value.si(); }
};

/// P(x >= bound) for an estimate, after t with its degrees of freedom. Without uncertainty it is
/// 0 or 1.
double probability_at_least(double value, double standard_u, double degrees_of_freedom,
                            double bound);

template <class Q>
double probability_at_least(const Estimate<Q>& e, Q bound) {
  return probability_at_least(e.value.si(), e.standard_u.si(), e.degrees_of_freedom, bound.si());
}

/// One-sided bounds at a confidence such as 0.95.
double lower_bound(double value, double standard_u, double degrees_of_freedom, double confidence);

template <class Q>
Q lower_bound(const Estimate<Q>& e, double confidence) {
  return Q::from_si(lower_bound(e.value.si(), e.standard_u.si(), e.degrees_of_freedom, confidence));
}

template <class Q>
Q upper_bound(const Estimate<Q>& e, double confidence) {
  return Q::from_si(2.0 * e.value.si() -
                    lower_bound(e.value.si(), e.standard_u.si(), e.degrees_of_freedom, confidence));
}

}  // namespace hailwright
