#pragma once

#include <string>
#include <vector>

#include "hailwright/evaluate/power.hpp"
#include "report/chart.hpp"
#include "report/chart_legend.hpp"

namespace hailwright::detail {

// How a loss of power looks on every picture: a band for its interval, a ring for its estimate, as
// places have on the map of hits; dashed and empty where no answer is drawn from them.

/// A loss in per cent for an axis; what a meter at fault could give beyond 100 % each way is cut
/// off [ours]. Bars are not: an end beyond the axis is drawn as an arrow.
double loss_percent(Ratio loss);

/// What an axis must hold so that all of a result can be seen; nothing of one without an estimate.
void show_loss(std::vector<double>& values, const PowerResult& power);

/// The band. Contract: an estimated result.
void draw_interval(Chart& chart, const Scale& x, const PowerResult& power, double y);
/// The ring and its number in a frame, above lines that cross the band. Contract: the same.
void draw_loss(Chart& chart, const Scale& x, const PowerResult& power, double y);
/// The interval by random trials, thin. Contract: they were made.
void draw_trials(Chart& chart, const Scale& x, const PowerResult& power, double y);
/// The mark of the smallest loss that would have shown.
void draw_smallest_shown(Chart& chart, const Scale& x, const PowerResult& power, double y);
/// What of a strip is a loss within the limit and what is beyond it.
void draw_zones(Chart& chart, const Frame& strip, const Scale& x, Ratio limit);

/// "loss 0.7 % (95 % interval ...)"; "seems to have gained 4.9 % (...)" where all of the interval
/// is below zero. Contract: an estimated result.
std::string loss_or_gain(const PowerResult& power);

/// A loss that all rows of a picture are held against.
struct LossLevel {
  double percent = 0.0;
  std::string words;
  LineLook look;
};

/// Upright lines through strips with their words above the first one, none touching another.
class LossLevels {
public:
  LossLevels(std::vector<LossLevel> levels, const Frame& frame, const Scale& x);
  [[nodiscard]] double height() const { return labels_.height; }
  void draw_words(Chart& chart, const Frame& first_strip) const;
  void draw_lines(Chart& chart, const Frame& strip) const;

private:
  [[nodiscard]] bool crossed(const AxisLabels::Label& label) const;
  std::vector<LossLevel> levels_;
  std::vector<double> at_;
  AxisLabels labels_;
};

/// What the marks mean, for those that these results have.
std::vector<LegendEntry> loss_legend(const std::vector<const PowerResult*>& results);
LegendEntry smallest_shown_entry();
LegendEntry zones_entry();

}  // namespace hailwright::detail
