#pragma once

#include <cstddef>
#include <cstdint>
#include <vector>

#include "hailwright/logs/log_stretch.hpp"

namespace hailwright::detail {

/// Count, mean, least and most of a column's cells that are not blank. Partial results merge.
struct ColumnTotal {
  std::int64_t count = 0;
  double sum = 0.0, rest = 0.0;  ///< compensated
  double least = 0.0, most = 0.0;

  static ColumnTotal of(const std::vector<double>& values, std::size_t begin, std::size_t end);
  void add(const std::vector<double>& values, std::size_t begin, std::size_t end);
  void append(const ColumnTotal& next);
  [[nodiscard]] double mean() const;  ///< 0 without a cell
  [[nodiscard]] ColumnSums sums() const;
};

/// Mean, scatter and autocorrelation of a series from partial results of neighbouring rows, each
/// about its own mean; merging shifts both to the common mean, which is associative up to rounding
/// and loses no digits where all values are nearly alike. Formulas of merging: by hand [ours]; the
/// result is held against the NIST Statistical Reference Datasets and the two-pass formulas of
/// metrology/statistics.hpp.
struct SeriesSums {
  std::int64_t count = 0;
  double mean = 0.0;
  double squares = 0.0;    ///< sum of the squared distances from the mean
  std::int64_t pairs = 0;  ///< neighbours with no gap between them
  double pair_sum = 0.0;   ///< over the pairs, sum of both distances from the mean
  double products = 0.0;   ///< over the pairs, sum of the products of both distances
  double first = 0.0, last = 0.0;
  std::int64_t first_us = 0, last_us = 0;

  static SeriesSums of_one(std::int64_t time_us, double value);
  /// Blank cells do not count; the next value is the neighbour of the last one.
  static SeriesSums of(const std::vector<std::int64_t>& time_us, const std::vector<double>& values,
                       std::size_t begin, std::size_t end, std::int64_t longest_gap_us);
  /// The next part: its first value is the last one's neighbour unless a longer step parts them.
  void append(const SeriesSums& next, std::int64_t longest_gap_us);
  /// The next part, whose first value is no neighbour: rows in between were left out.
  void append_apart(const SeriesSums& next);
  [[nodiscard]] SeriesMean result() const;
};

/// How many independent readings the mean of so many rows is worth (MEASUREMENT M2): 1 below 20
/// rows. As `effective_count`, for any number of rows and at once.
double effective_rows(std::int64_t rows, double lag1);

}  // namespace hailwright::detail
