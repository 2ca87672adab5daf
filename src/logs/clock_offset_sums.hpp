#pragma once

#include <cstddef>
#include <cstdint>
#include <vector>

namespace hailwright::detail {

/// The changes of power of a log in its last steps, the newest first: as they are, squared, and
/// whether they are known (1 or 0). An unknown change is 0.
class RecentChanges {
public:
  /// @param back  so many steps before the newest one are remembered
  explicit RecentChanges(std::size_t back);
  void add(double change);  ///< NaN: unknown
  void forget();

  [[nodiscard]] bool known() const { return known_[newest_] != 0.0; }
  /// All changes from the newest one back.
  [[nodiscard]] bool all_known() const { return known_in_a_row_ > back_; }
  [[nodiscard]] const double* changes() const { return &change_[newest_]; }
  [[nodiscard]] const double* squares() const { return &square_[newest_]; }
  [[nodiscard]] const double* knowns() const { return &known_[newest_]; }

private:
  std::size_t back_;
  std::size_t newest_;
  std::size_t known_in_a_row_ = 0;
  std::vector<double> change_, square_, known_;
};

/// Sums over the pairs of changes that are known in both logs, for every lag from -lags to +lags:
/// a lag of m pairs a change of the first log with the second one's m steps earlier.
class LagSums {
public:
  explicit LagSums(std::size_t lags);
  /// The newest step of both logs: pairs that it makes with the steps before.
  void add(const RecentChanges& first, const RecentChanges& second);
  LagSums& operator+=(const LagSums& other);
  LagSums& operator-=(const LagSums& other);

  [[nodiscard]] std::ptrdiff_t lags() const { return static_cast<std::ptrdiff_t>(lags_); }
  /// Of `lag` from -lags to +lags; 0 where nothing is known of one log.
  [[nodiscard]] double correlation(std::ptrdiff_t lag) const;
  [[nodiscard]] double pairs(std::ptrdiff_t lag) const;

private:
  /// Of lags of one sign, by their size.
  struct Side {
    std::vector<double> product, newest_square, earlier_square, pairs;
    /// What comes to the same for all lags, for steps before which all changes are known.
    double newest_square_of_all = 0.0, pairs_of_all = 0.0;
    explicit Side(std::size_t size)
        : product(size), newest_square(size), earlier_square(size), pairs(size) {}
    void add(const RecentChanges& newest, const RecentChanges& earlier, std::size_t from);
    void add(const Side& other, double sign);
  };
  [[nodiscard]] const Side& side(std::ptrdiff_t lag) const { return lag < 0 ? behind_ : ahead_; }

  std::size_t lags_;
  Side ahead_;   ///< lags from 0 up: a change of the first log with earlier ones of the second
  Side behind_;  ///< below 0: a change of the second log with earlier ones of the first
};

/// Sums by stretches of the log of equal length, at most 32: when they do not suffice, neighbours
/// are added up and the length doubles. They show how much a result scatters from stretch to
/// stretch, whatever makes it scatter.
class BatchedSums {
public:
  explicit BatchedSums(std::size_t lags);
  void add(const RecentChanges& first, const RecentChanges& second);
  [[nodiscard]] const std::vector<LagSums>& batches() const { return batches_; }
  [[nodiscard]] LagSums total() const;

private:
  std::size_t lags_;
  std::int64_t steps_in_batch_;
  std::int64_t steps_in_last_ = 0;
  std::vector<LagSums> batches_;
};

}  // namespace hailwright::detail
