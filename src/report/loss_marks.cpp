#include "report/loss_marks.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <utility>

#include "report/sentences.hpp"

namespace hailwright::detail {

namespace {

constexpr double estimate_half = 6.5;
constexpr double level_overhang = 14.0;  ///< of words above a frame beyond its ends

LineLook bar_look(bool counts) {
  return {2.5, counts ? "none" : "5 4"};
}

constexpr LineLook trials_look{1.0, "none", faint_ink};
constexpr MarkLook shown_look{MarkShape::triangle, true, 6.0};

MarkLook estimate_look(bool counts) {
  return {MarkShape::disc, counts, estimate_half};
}

std::vector<std::string> words_of(const std::vector<LossLevel>& levels) {
  std::vector<std::string> words;
  for (const LossLevel& level : levels)
    words.push_back(level.words);
  return words;
}

bool any(const std::vector<const PowerResult*>& results, bool (*wanted)(const PowerResult&)) {
  return std::any_of(results.begin(), results.end(),
                     [&](const PowerResult* p) { return p->estimated() && wanted(*p); });
}

LegendEntry bar_entry(bool counts, std::string words) {
  return {[counts](Chart& chart, Spot at) {
            chart.line({at.x - 13.0, at.y}, {at.x + 13.0, at.y}, bar_look(counts));
            chart.mark(at, estimate_look(counts));
          },
          std::move(words)};
}

}  // namespace

double loss_percent(Ratio loss) {
  return std::clamp(100.0 * loss.si(), -100.0, 100.0);
}

void show_loss(std::vector<double>& values, const PowerResult& power) {
  if (!power.estimated()) return;
  for (const Ratio loss : {power.estimate.low(), power.estimate.high(), power.estimate.loss()})
    values.push_back(loss_percent(loss));
  if (power.check) {
    values.push_back(loss_percent(power.check->low));
    values.push_back(loss_percent(power.check->high));
  }
  if (power.usable()) values.push_back(loss_percent(power.smallest_shown));
}

void draw_loss(Chart& chart, const Scale& x, const PowerResult& power, double y) {
  const LossEstimate& estimate = power.estimate;
  chart.whisker_across(x, loss_percent(estimate.low()), loss_percent(estimate.high()), y, 8.0,
                       bar_look(power.usable()));
  chart.mark({x.at(loss_percent(estimate.loss())), y}, estimate_look(power.usable()));
}

void draw_trials(Chart& chart, const Scale& x, const PowerResult& power, double y) {
  chart.whisker_across(x, loss_percent(power.check->low), loss_percent(power.check->high), y, 4.0,
                       trials_look);
}

void draw_smallest_shown(Chart& chart, const Frame& frame, const Scale& x, const PowerResult& power,
                         double y) {
  const double at = x.at(loss_percent(power.smallest_shown));
  const std::string words = percent_text(power.smallest_shown) + " would have shown";
  const double width = text_units(words, tick_text_size);
  const bool right = at + 14.0 + width < frame.right;
  const double left = right ? at + 12.0 : at - 12.0 - width;
  chart.box({left - 2.0, left + width + 2.0, y - 8.0, y + 8.0}, "#fff", {0.0});
  chart.mark({at, y}, shown_look);
  chart.write({right ? left : left + width, y + 5.0}, words,
              {right ? "start" : "end", tick_text_size});
}

LossLevels::LossLevels(std::vector<LossLevel> levels, const Frame& frame, const Scale& x)
    : levels_(std::move(levels)) {
  std::stable_sort(levels_.begin(), levels_.end(),
                   [](const LossLevel& a, const LossLevel& b) { return a.percent < b.percent; });
  for (const LossLevel& level : levels_)
    at_.push_back(x.at(level.percent));
  labels_ = labels_along(at_, words_of(levels_), tick_text_size,
                         {frame.left - level_overhang, frame.right + level_overhang});
}

void LossLevels::draw(Chart& chart, const Frame& frame) const {
  for (std::size_t i = 0; i < levels_.size(); ++i)
    chart.line({at_[i], frame.top}, {at_[i], frame.bottom}, levels_[i].look);
  for (const AxisLabels::Label& label : labels_.labels) {
    const double y = frame.top - 8.0 - label_row * label.row;
    chart.line({at_[label.item], frame.top}, {label.x, y + 3.0}, {1.0});
    chart.write({label.x, y}, levels_[label.item].words, {"middle", tick_text_size});
  }
}

std::vector<LegendEntry> loss_legend(const std::vector<const PowerResult*>& results) {
  std::vector<LegendEntry> entries;
  if (any(results, [](const PowerResult& p) { return p.usable(); })) {
    entries.push_back(bar_entry(true, "loss and its interval, which decides"));
  }
  if (any(results, [](const PowerResult& p) { return !p.usable(); })) {
    entries.push_back(bar_entry(false, "loss and its interval where no answer is drawn from them"));
  }
  if (any(results, [](const PowerResult& p) { return p.check.has_value(); })) {
    entries.push_back({[](Chart& chart, Spot at) {
                         chart.line({at.x - 13.0, at.y}, {at.x + 13.0, at.y}, trials_look);
                         for (const double x : {at.x - 13.0, at.x + 13.0})
                           chart.line({x, at.y - 4.0}, {x, at.y + 4.0}, trials_look);
                       },
                       "interval by random trials of the same model, which checks it"});
  }
  return entries;
}

}  // namespace hailwright::detail
