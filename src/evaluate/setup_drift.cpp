#include "evaluate/setup_drift.hpp"

#include <algorithm>
#include <cmath>

#include "hailwright/core/contract.hpp"
#include "hailwright/metrology/statistics.hpp"

namespace hailwright {

namespace {

/// Middle times that lie closer together than this share of the whole time are the same: the rest
/// is rounding.
constexpr double same_time = 1e-12;

std::vector<double> times_of(std::span<const std::size_t> panel, std::span<const double> time,
                             std::size_t which) {
  std::vector<double> mine;
  for (std::size_t i = 0; i < panel.size(); ++i) {
    if (panel[i] == which) mine.push_back(time[i]);
  }
  return mine;
}

}  // namespace

LineWeights plain_means(std::span<const std::size_t> panel) {
  expects(!panel.empty(), "plain_means: a value at least");
  const std::size_t panels = *std::max_element(panel.begin(), panel.end()) + 1;
  LineWeights weights;
  for (std::size_t p = 0; p < panels; ++p) {
    const auto n = static_cast<double>(std::count(panel.begin(), panel.end(), p));
    expects(n > 0.0, "plain_means: every panel has a value");
    std::vector<double>& mine = weights.mean.emplace_back();
    for (const std::size_t of : panel)
      mine.push_back(of == p ? 1.0 / n : 0.0);
  }
  return weights;
}

std::optional<LineWeights> means_beside_line(std::span<const std::size_t> panel,
                                             std::span<const double> time) {
  expects(panel.size() == time.size(), "means_beside_line: a time for each value");
  LineWeights weights = plain_means(panel);
  const std::size_t panels = weights.mean.size();
  const double middle = mean(time);
  const auto [first, last] = std::minmax_element(time.begin(), time.end());
  std::vector<double> middle_of(panels);
  for (std::size_t p = 0; p < panels; ++p)
    middle_of[p] = mean(times_of(panel, time, p));
  // Only how the times of one panel differ tells the line from the differences of the panels.
  std::vector<double> within(time.size());
  double squares = 0.0;
  for (std::size_t i = 0; i < time.size(); ++i) {
    within[i] = time[i] - middle_of[panel[i]];
    squares += within[i] * within[i];
  }
  const double whole = *last - *first;
  if (squares <= same_time * whole * whole) return std::nullopt;
  for (const double w : within)
    weights.slope.push_back(w / squares);
  for (std::size_t p = 0; p < panels; ++p) {
    const double later = middle_of[p] - middle;
    if (std::abs(later) <= same_time * whole) continue;
    for (std::size_t i = 0; i < time.size(); ++i)
      weights.mean[p][i] -= later * weights.slope[i];
  }
  return weights;
}

}  // namespace hailwright
