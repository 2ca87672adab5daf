#pragma once

#include <cstddef>
#include <optional>
#include <span>
#include <vector>

namespace hailwright {

/// How the mean of each panel (or of each stage) is made of single values: linear in them.
struct LineWeights {
  std::vector<std::vector<double>> mean;  ///< by panel, then by value; each sums to 1
  /// Of the slope of the line that all panels share, per unit of time; empty: no line.
  std::vector<double> slope;
};

/// Plain means. `panel` holds the panel of each value, counted from 0, none left out.
LineWeights plain_means(std::span<const std::size_t> panel);

/// Least squares of one mean a panel and one straight line in time that all panels share: means at
/// the middle time, so that a steady drift of the instruments cancels in their differences whatever
/// the order of the readings (MEASUREMENT M8; for two panels the same as steps of -1/2 and +1/2
/// beside a line). An order that is balanced already, such as A B B A, gives the plain means.
/// Nothing where the line cannot be told from the differences: no panel has two different times.
/// @param time  of each value, in any unit
std::optional<LineWeights> means_beside_line(std::span<const std::size_t> panel,
                                             std::span<const double> time);

}  // namespace hailwright
