#pragma once

#include <optional>
#include <span>

namespace hailwright {

/// Mean of one or more values.
double mean(std::span<const double> values);

/// Sample standard deviation, divisor n - 1, by two passes. One value has no spread: nothing.
std::optional<double> sample_sd(std::span<const double> values);

/// Scatter of blocks of values, each about its own mean, taken together (MEASUREMENT M2).
struct PooledScatter {
  double squares = 0.0;  ///< sum of the squared distances from the means
  double dof = 0.0;      ///< values less blocks

  /// A block of one value, or none, tells nothing.
  void add(std::span<const double> block);
  /// Requires dof > 0.
  [[nodiscard]] double sd() const;
};

/// Autocorrelation at lag 1: sum of d_i d_(i+1) over sum of d_i squared, as the NIST Statistical
/// Reference Datasets define it. Nothing for fewer than two values or no spread.
std::optional<double> lag1_autocorrelation(std::span<const double> values);

/// How many independent readings the mean of `n` autocorrelated ones is worth (MEASUREMENT M2):
/// n / (1 + 2 sum over k of (1 - k/n) r^k), with r clipped to 0..0.99. At least 1, at most n.
double effective_count(int n, double lag1);

/// Least-squares slope of y on x; nothing when x does not vary or sizes differ or n < 3.
std::optional<double> slope(std::span<const double> x, std::span<const double> y);

}  // namespace hailwright
