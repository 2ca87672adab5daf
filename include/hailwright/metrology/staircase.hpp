#pragma once

#include <cstddef>
#include <optional>
#include <span>

#include "hailwright/metrology/probit.hpp"

namespace hailwright {

// Up-and-down tests on even steps: one step down after an outcome 1, one up after 0. Method and
// formulas: W. J. Dixon and A. M. Mood, J. Amer. Statist. Assoc. 43 (1948) 109, read as quoted by
// S. Caliskan et al., Frattura ed Integrita Strutturale 58 (2021) 344, eq. 1 to 4.

/// Levels start + k step, k whole. Contract: step above 0.
struct StaircaseGrid {
  double start = 0.0;
  double step = 1.0;
  /// How far a test may lie from its level, in steps [ours].
  static constexpr double most_off = 0.25;
  /// Number of the level that a test lies on; nothing when it lies between two.
  [[nodiscard]] std::optional<int> level(double x) const;
  [[nodiscard]] double at(int level) const { return start + step * level; }
};

/// Where the next test belongs.
int next_level(int level, bool one);

/// Why the formulas do not hold.
enum class StaircaseObstacle {
  none,
  off_grid,       ///< test `at` lies between two levels
  rule_broken,    ///< test `at` is not one step from the one before, to the side that it asked for
  few_tests,      ///< fewer than 15 (MEASUREMENT M14)
  one_outcome,    ///< all 0 or all 1
  scale_too_low,  ///< scale/step below 0.5, or outside the range of the formula for the scale
  scale_too_high  ///< scale/step above 2
};

struct StaircaseEstimate {
  StaircaseObstacle obstacle = StaircaseObstacle::none;
  std::size_t at = 0;        ///< index of the test that an obstacle names
  bool counts_ones = false;  ///< of the rarer outcome, which alone is counted
  int counted = 0;           ///< how many tests had it
  /// (N B - A^2) / N^2 of the counted ones, with levels from their lowest on.
  std::optional<double> spread;
  /// Both where the formulas could be worked out, even outside their range.
  std::optional<double> location, scale;
};

struct StaircaseLimits {
  static constexpr int fewest = 15;                             ///< M14
  static constexpr double least_ratio = 0.5, most_ratio = 2.0;  ///< scale/step, M14
  static constexpr double least_spread = 0.3;                   ///< Dixon and Mood, as quoted there
};

/// The estimate of Dixon and Mood from tests in the order in which they were done.
StaircaseEstimate estimate_staircase(std::span<const ProbitTest> tests, const StaircaseGrid& grid);

}  // namespace hailwright
