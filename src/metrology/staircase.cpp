#include "hailwright/metrology/staircase.hpp"

#include <algorithm>
#include <cmath>
#include <vector>

#include "hailwright/core/contract.hpp"

namespace hailwright {

namespace {

/// Farthest level that is told from others; beyond it is no staircase.
constexpr double most_levels = 1e6;

/// Sums over the tests with the rarer outcome, levels counted from their lowest.
struct Counted {
  int lowest = 0;
  double n = 0.0, a = 0.0, b = 0.0;
};

Counted count(std::span<const ProbitTest> tests, const std::vector<int>& levels, bool ones) {
  Counted sums;
  bool any = false;
  for (std::size_t i = 0; i < tests.size(); ++i) {
    if (tests[i].one != ones) continue;
    sums.lowest = any ? std::min(sums.lowest, levels[i]) : levels[i];
    any = true;
  }
  for (std::size_t i = 0; i < tests.size(); ++i) {
    if (tests[i].one != ones) continue;
    const double level = levels[i] - sums.lowest;
    sums.n += 1.0;
    sums.a += level;
    sums.b += level * level;
  }
  return sums;
}

StaircaseEstimate stopped(StaircaseObstacle obstacle, std::size_t at) {
  StaircaseEstimate estimate;
  estimate.obstacle = obstacle;
  estimate.at = at;
  return estimate;
}

StaircaseObstacle obstacle_of(const StaircaseEstimate& e, std::size_t tests, double step) {
  using Limits = StaircaseLimits;
  if (tests < static_cast<std::size_t>(Limits::fewest)) return StaircaseObstacle::few_tests;
  const double ratio = *e.scale / step;
  if (ratio > Limits::most_ratio) return StaircaseObstacle::scale_too_high;
  const bool low = ratio < Limits::least_ratio || *e.spread <= Limits::least_spread;
  return low ? StaircaseObstacle::scale_too_low : StaircaseObstacle::none;
}

}  // namespace

std::optional<int> StaircaseGrid::level(double x) const {
  expects(step > 0.0, "StaircaseGrid: a step above 0");
  const double steps = (x - start) / step;
  const double level = std::round(steps);
  if (!(std::abs(level) <= most_levels) || std::abs(steps - level) > most_off) return std::nullopt;
  return static_cast<int>(level);
}

int next_level(int level, bool one) {
  return one ? level - 1 : level + 1;
}

StaircaseEstimate estimate_staircase(std::span<const ProbitTest> tests, const StaircaseGrid& grid) {
  std::vector<int> levels;
  int ones = 0;
  for (std::size_t i = 0; i < tests.size(); ++i) {
    const std::optional<int> level = grid.level(tests[i].x);
    if (!level) return stopped(StaircaseObstacle::off_grid, i);
    if (i > 0 && *level != next_level(levels.back(), tests[i - 1].one))
      return stopped(StaircaseObstacle::rule_broken, i);
    levels.push_back(*level);
    if (tests[i].one) ++ones;
  }
  const int zeros = static_cast<int>(tests.size()) - ones;
  if (ones == 0 || zeros == 0) return stopped(StaircaseObstacle::one_outcome, 0);
  StaircaseEstimate estimate;
  estimate.counts_ones = ones <= zeros;
  const Counted sums = count(tests, levels, estimate.counts_ones);
  estimate.counted = static_cast<int>(sums.n);
  estimate.spread = (sums.n * sums.b - sums.a * sums.a) / (sums.n * sums.n);
  const double half = estimate.counts_ones ? -0.5 : 0.5;
  estimate.location = grid.at(sums.lowest) + grid.step * (sums.a / sums.n + half);
  estimate.scale = 1.62 * grid.step * (*estimate.spread + 0.029);
  estimate.obstacle = obstacle_of(estimate, tests.size(), grid.step);
  return estimate;
}

}  // namespace hailwright
