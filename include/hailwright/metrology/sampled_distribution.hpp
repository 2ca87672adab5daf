#pragma once

#include <cstddef>
#include <cstdint>
#include <functional>
#include <span>
#include <utility>
#include <vector>

namespace hailwright {

/// The distribution of a quantity as counts in bins: it does not grow with the trials, and counts
/// added in any order are the same. Between `low` and `high` the bins are of one width; beyond them
/// they widen with the distance, 64 for each doubling.
class SampledDistribution {
public:
  /// A map that rises or falls all along, such as lambda to loss; identity when absent.
  using Monotone = std::function<double(double)>;

  /// Requires low < high and so many equal bins between them, one at least.
  SampledDistribution(double low, double high, std::size_t bins);
  /// A value that is not a number is a mistake of ours.
  void add(std::span<const double> values);
  /// Both with the same bins.
  void merge(const SampledDistribution& other);
  /// Forgets the values, keeps the bins.
  void clear();

  [[nodiscard]] std::int64_t trials() const { return trials_; }
  /// Requires 0 < p < 1 and a trial at least; linear inside a bin.
  [[nodiscard]] double quantile(double p) const;
  /// Mean and standard deviation take each value for the middle of its bin. With bins of w standard
  /// deviations that moves them by w^2/24 standard deviations and, by chance, by w/sqrt(12) of the
  /// noise that the trials have anyway: for the w = 1/1024 of `run_monte_carlo` 4e-8 and 3e-4 of
  /// it. The mean needs one trial.
  [[nodiscard]] double mean(const Monotone& map = {}) const;
  /// Needs two trials: divisor n - 1.
  [[nodiscard]] double sd(const Monotone& map = {}) const;
  /// Share of the trials above x; linear inside a bin.
  [[nodiscard]] double above(double x) const;
  /// Shortest interval that holds this share (JCGM 101:2008, 7.7), of the mapped quantity, lower
  /// end first. Its ends are noisier than those of the symmetric one.
  [[nodiscard]] std::pair<double, double> shortest(double coverage, const Monotone& map = {}) const;

private:
  void add_piece(std::span<const double> values);
  [[nodiscard]] std::size_t bin_outside(double value) const;
  [[nodiscard]] double edge(std::size_t bin) const;
  [[nodiscard]] double inside(std::size_t bin, double share) const;

  double low_, high_, width_;
  std::size_t bins_;
  /// Those below from the farthest on, the equal ones, those beyond.
  std::vector<std::int64_t> counts_;
  std::int64_t trials_ = 0;
};

}  // namespace hailwright
