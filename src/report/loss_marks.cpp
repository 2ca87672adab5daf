#include "report/loss_marks.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <utility>

#include "report/judgement_power.hpp"
#include "report/sentences.hpp"
#include "report/shown_loss.hpp"

namespace hailwright::detail {

namespace {

// Sizes in units of the picture [ours].
constexpr double band_half = 10.0;
constexpr double ring = 7.0;
constexpr double level_overhang = 14.0;  ///< of words above a strip beyond its ends
constexpr const char* within_fill = "#f2f2f2";
constexpr const char* beyond_fill = "#cfcfcf";

LineLook band_look(bool counts) {
  return {1.5, counts ? "none" : "5 4"};
}

constexpr LineLook trials_look{1.0, "none", faint_ink};
constexpr MarkLook shown_look{MarkShape::triangle, true, 6.0};

/// Not cut off: an end beyond the axis is drawn as one.
double percent_of(Ratio loss) {
  return 100.0 * loss.si();
}

/// Full where it counts.
void draw_ring(Chart& chart, Spot at, bool counts) {
  chart.mark(at, {MarkShape::ring, false, ring});
  if (counts) chart.mark(at, {MarkShape::disc, true, 3.5});
}

/// The number of an estimate in a frame, right of its band or, where there is no room, left of it.
void draw_number(Chart& chart, const Scale& x, const PowerResult& power, double y) {
  const std::string words = loss_text(power.estimate.loss(), power);
  const double width = text_units(words, tick_text_size, Weight::bold) + 10.0;
  const double gap = 10.0;
  const double right = x.clipped(percent_of(power.estimate.high())) + gap;
  const double left = x.clipped(percent_of(power.estimate.low())) - gap - width;
  if (right + width > x.to() && left < x.from()) return;
  const double at = right + width <= x.to() ? right : left;
  chart.box({at, at + width, y - 9.0, y + 9.0}, "#fff", {1.0});
  chart.write({at + width / 2.0, y + 5.0}, words, {"middle", tick_text_size, Weight::bold});
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
            const Scale x(Scale::Kind::linear, {0.0, 1.0}, at.x - 15.0, at.x + 15.0);
            chart.band_across(x, 0.0, 1.0, at.y, 10.0, band_look(counts));
            draw_ring(chart, at, counts);
          },
          std::move(words)};
}

/// "95 % interval" where all results have intervals of one level.
std::string interval_name(const std::vector<const PowerResult*>& results) {
  std::optional<std::string> common;
  for (const PowerResult* p : results) {
    if (!p->estimated()) continue;
    const std::string level = level_text(p->estimate.alpha);
    if (common && *common != level) return "interval";
    common = level;
  }
  return common ? *common + " interval" : "interval";
}

}  // namespace

double loss_percent(Ratio loss) {
  return std::clamp(percent_of(loss), -100.0, 100.0);
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

void draw_interval(Chart& chart, const Scale& x, const PowerResult& power, double y) {
  chart.band_across(x, percent_of(power.estimate.low()), percent_of(power.estimate.high()), y,
                    band_half, band_look(power.usable()));
}

void draw_loss(Chart& chart, const Scale& x, const PowerResult& power, double y) {
  draw_ring(chart, {x.at(loss_percent(power.estimate.loss())), y}, power.usable());
  draw_number(chart, x, power, y);
}

std::string loss_or_gain(const PowerResult& power) {
  const LossEstimate& e = power.estimate;
  if (e.high().si() >= 0.0) return loss_line(power);
  return fmt::format("seems to have gained {} ({} interval {})", loss_text(-1.0 * e.loss(), power),
                     level_text(e.alpha), ends_text(-1.0 * e.high(), -1.0 * e.low(), power));
}

void draw_trials(Chart& chart, const Scale& x, const PowerResult& power, double y) {
  chart.whisker_across(x, percent_of(power.check->low), percent_of(power.check->high), y, 4.0,
                       trials_look);
}

void draw_smallest_shown(Chart& chart, const Scale& x, const PowerResult& power, double y) {
  chart.mark({x.at(loss_percent(power.smallest_shown)), y}, shown_look);
}

void draw_zones(Chart& chart, const Frame& strip, const Scale& x, Ratio limit) {
  const double zero = x.clipped(0.0);
  const double edge = x.clipped(loss_percent(limit));
  chart.box({zero, edge, strip.top, strip.bottom}, within_fill, {0.0});
  chart.box({edge, strip.right, strip.top, strip.bottom}, beyond_fill, {0.0});
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

/// Whether a line up to words of a higher row runs through these words.
bool LossLevels::crossed(const AxisLabels::Label& label) const {
  const double half = text_units(levels_[label.item].words, tick_text_size) / 2.0 + 2.0;
  return std::any_of(labels_.labels.begin(), labels_.labels.end(), [&](const auto& other) {
    const auto [left, right] = std::minmax(at_[other.item], other.x);
    return other.row > label.row && left < label.x + half && right > label.x - half;
  });
}

void LossLevels::draw_lines(Chart& chart, const Frame& strip) const {
  for (std::size_t i = 0; i < levels_.size(); ++i)
    chart.line({at_[i], strip.top}, {at_[i], strip.bottom}, levels_[i].look);
}

/// Higher rows first, so that words stand on what runs through them.
void LossLevels::draw_words(Chart& chart, const Frame& first_strip) const {
  std::vector<AxisLabels::Label> labels = labels_.labels;
  std::stable_sort(labels.begin(), labels.end(),
                   [](const auto& a, const auto& b) { return a.row > b.row; });
  for (const AxisLabels::Label& label : labels) {
    const std::string& words = levels_[label.item].words;
    const double y = first_strip.top - 8.0 - label_row * label.row;
    chart.line({at_[label.item], first_strip.top}, {label.x, y + 3.0}, {1.0});
    if (crossed(label)) {
      const double half = text_units(words, tick_text_size) / 2.0 + 2.0;
      chart.box({label.x - half, label.x + half, y - 12.0, y + 3.0}, "#fff", {0.0});
    }
    chart.write({label.x, y}, words, {"middle", tick_text_size});
  }
}

std::vector<LegendEntry> loss_legend(const std::vector<const PowerResult*>& results) {
  std::vector<LegendEntry> entries;
  const std::string interval = interval_name(results);
  if (any(results, [](const PowerResult& p) { return p.usable(); })) {
    entries.push_back(bar_entry(true, "loss and its " + interval + ", which decides"));
  }
  if (any(results, [](const PowerResult& p) { return !p.usable(); })) {
    entries.push_back(
        bar_entry(false, "loss and its " + interval + " where no answer is drawn from them"));
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

LegendEntry smallest_shown_entry() {
  return {[](Chart& chart, Spot at) { chart.mark(at, shown_look); },
          "the smallest loss that would have shown"};
}

LegendEntry zones_entry() {
  return {[](Chart& chart, Spot at) {
            chart.box({at.x - 14.0, at.x, at.y - 8.0, at.y + 8.0}, within_fill, {0.0});
            chart.box({at.x, at.x + 14.0, at.y - 8.0, at.y + 8.0}, beyond_fill, {0.0});
          },
          "light: a loss within the limit; dark: beyond it; white: a gain"};
}

}  // namespace hailwright::detail
