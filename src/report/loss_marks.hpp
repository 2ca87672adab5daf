#pragma once

#include <string>
#include <vector>

#include "hailwright/evaluate/power.hpp"
#include "report/chart.hpp"
#include "report/chart_legend.hpp"

namespace hailwright::detail {

// How a loss of power looks on every picture: a bar for its interval, a disc for its estimate, both
// open where no answer is drawn from them.

/// A loss in per cent for an axis; what a meter at fault could give beyond 100 % each way is cut
/// off [ours].
double loss_percent(Ratio loss);

/// What an axis must hold so that all of a result can be seen; nothing of one without an estimate.
void show_loss(std::vector<double>& values, const PowerResult& power);

/// Bar and disc. Contract: an estimated result.
void draw_loss(Chart& chart, const Scale& x, const PowerResult& power, double y);
/// The interval by random trials, thin. Contract: they were made.
void draw_trials(Chart& chart, const Scale& x, const PowerResult& power, double y);
/// The mark of the smallest loss that would have shown, with its words beside it.
void draw_smallest_shown(Chart& chart, const Frame& frame, const Scale& x, const PowerResult& power,
                         double y);

/// A loss that all rows of a picture are held against.
struct LossLevel {
  double percent = 0.0;
  std::string words;
  LineLook look;
};

/// Upright lines through a frame with their words above it, none touching another.
class LossLevels {
public:
  LossLevels(std::vector<LossLevel> levels, const Frame& frame, const Scale& x);
  [[nodiscard]] double height() const { return labels_.height; }
  void draw(Chart& chart, const Frame& frame) const;

private:
  std::vector<LossLevel> levels_;
  std::vector<double> at_;
  AxisLabels labels_;
};

/// What the marks mean, for those that these results have.
std::vector<LegendEntry> loss_legend(const std::vector<const PowerResult*>& results);

}  // namespace hailwright::detail
