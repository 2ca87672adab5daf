#include "report/pattern_picture.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cmath>

#include "report/chart.hpp"
#include "report/chart_legend.hpp"
#include "report/chart_rows.hpp"
#include "report/pattern_sentences.hpp"

namespace hailwright {

namespace {

using detail::Chart;
using detail::ChartRows;
using detail::Frame;
using detail::Legend;
using detail::LegendEntry;
using detail::MarkLook;
using detail::MarkShape;
using detail::RowWords;
using detail::Scale;
using detail::Spot;

// Below the top of a strip, in units of the picture [ours].
constexpr double measured_at = 18.0, predicted_at = 38.0, next_predicted = 13.0,
                 pattern_strip_height = 80.0;

constexpr std::array<MarkLook, 3> looks{MarkLook{MarkShape::diamond, true, 6.0},
                                        MarkLook{MarkShape::triangle, false, 6.0},
                                        MarkLook{MarkShape::cross, false, 5.0}};

double percent_of(double log_change) {
  return 100.0 * std::expm1(log_change);
}

/// The patterns that fit best, as many as there are shapes.
std::vector<const PatternFit*> shown_fits(const LossPattern& p) {
  std::vector<const PatternFit*> shown;
  for (const PatternFit& fit : p.fits) {
    if (fit.pattern && shown.size() < looks.size()) shown.push_back(&fit);
  }
  return shown;
}

std::vector<RowWords> rows_of(const LossPattern& p) {
  std::vector<RowWords> rows;
  for (const CurveChange& c : p.changes) {
    const std::string sentence = change_sentence(c);
    const std::string name = figure_name(c.figure);
    rows.push_back({name, {sentence.substr(name.size() + 2)}});
  }
  return rows;
}

Scale scale_of(const LossPattern& p, const std::vector<const PatternFit*>& shown,
               const Frame& frame) {
  std::vector<double> values{0.0};
  for (const CurveChange& c : p.changes) {
    values.push_back(100.0 * c.low.si());
    values.push_back(100.0 * c.high.si());
    for (const PatternFit* fit : shown)
      values.push_back(percent_of(fit->predicted[static_cast<std::size_t>(c.figure)]));
  }
  return detail::linear_scale(values, frame.left, frame.right);
}

std::vector<LegendEntry> legend_of(const std::vector<const PatternFit*>& shown) {
  std::vector<LegendEntry> entries{{[](Chart& chart, Spot at) {
                                      chart.line({at.x - 13.0, at.y}, {at.x + 13.0, at.y}, {2.0});
                                      chart.mark(at, {MarkShape::disc, true, 6.0});
                                    },
                                    "change that was measured, with its interval at 95 %"}};
  for (std::size_t i = 0; i < shown.size(); ++i) {
    const CurvePattern pattern = *shown[i]->pattern;
    entries.push_back({[i](Chart& chart, Spot at) { chart.mark(at, looks.at(i)); },
                       fmt::format("as by {} ({}){}", pattern_name(pattern),
                                   pattern_size(pattern, shown[i]->size),
                                   shown[i]->fits ? "" : ", which does not fit")});
  }
  return entries;
}

void draw_strip(Chart& chart, const Frame& strip, const Scale& x, const CurveChange& c,
                const std::vector<const PatternFit*>& shown) {
  chart.line({x.at(0.0), strip.top}, {x.at(0.0), strip.bottom}, {1.5});
  chart.ruler(strip, x);
  const double y = strip.top + measured_at;
  chart.whisker_across(x, 100.0 * c.low.si(), 100.0 * c.high.si(), y);
  chart.mark({x.at(percent_of(c.log_change)), y}, {MarkShape::disc, true, 6.0});
  for (std::size_t i = 0; i < shown.size(); ++i) {
    const double predicted = shown[i]->predicted[static_cast<std::size_t>(c.figure)];
    const double lane = strip.top + predicted_at + next_predicted * static_cast<double>(i);
    chart.mark({x.at(percent_of(predicted)), lane}, looks.at(i));
  }
}

std::string drawn(const Figure& figure, const LossPattern& p, const std::vector<RowWords>& words) {
  const std::vector<const PatternFit*> shown = shown_fits(p);
  const ChartRows rows(words, pattern_strip_height);
  const Frame frame = rows.frame(8.0);
  const Scale x = scale_of(p, shown, frame);
  const double below = frame.bottom + detail::below_axis + 6.0;
  const Legend legend(legend_of(shown), detail::rows_left);
  Chart chart(figure, below + legend.height() + 6.0);
  rows.draw(chart, frame);
  for (std::size_t i = 0; i < p.changes.size(); ++i)
    draw_strip(chart, rows.strip(frame, i), x, p.changes[i], shown);
  chart.ruler_figures(rows.last_strip(frame), x, "change from before to after in %");
  legend.draw(chart, below);
  return chart.finish();
}

}  // namespace

Figure pattern_picture(const LossPattern& pattern, const std::string& title,
                       std::string_view suffix) {
  const std::vector<RowWords> words = rows_of(pattern);
  Figure figure;
  figure.id = fmt::format("pattern{}", suffix);
  figure.title = "Changes of the curve of " + title;
  figure.description = detail::rows_description(words) + ' ' + pattern_sentence(pattern);
  figure.svg = drawn(figure, pattern, words);
  return figure;
}

}  // namespace hailwright
