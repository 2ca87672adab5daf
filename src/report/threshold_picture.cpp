#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <map>

#include "hailwright/report/compose_threshold.hpp"
#include "report/chart.hpp"
#include "report/chart_legend.hpp"
#include "report/threshold_sentences.hpp"
#include "report/words.hpp"

namespace hailwright {

namespace {

using detail::Chart;
using detail::Frame;
using detail::Legend;
using detail::LegendEntry;
using detail::MarkLook;
using detail::MarkShape;
using detail::Scale;
using detail::Spot;

// In units of the picture [ours].
constexpr double curve_height = 220.0;  ///< from 0 % to 100 %
constexpr double between = 13.0;        ///< marks of one energy, one above the other
constexpr double beside_marks = 18.0;

constexpr MarkLook damaged_look{MarkShape::diamond, true, 6.0};
constexpr MarkLook other_mark{MarkShape::disc, false, 5.0};

/// How many marks stand one above the other at most, so that they stay in the picture.
constexpr int highest_stack = 12;

/// Marks of one outcome: those that would touch stand away from the curve.
std::vector<Spot> stacked(const std::vector<SpecimenTest>& tests, bool damaged, const Scale& x,
                          double first, double step) {
  std::map<int, int> columns;
  std::vector<Spot> spots;
  for (const SpecimenTest& test : tests) {
    if (test.damaged != damaged) continue;
    const double at = x.at(test.energy.si());
    int& height = columns[static_cast<int>(std::lround(at / between))];
    spots.push_back({at, first + step * (height % highest_stack)});
    ++height;
  }
  return spots;
}

double lowest_of(const std::vector<Spot>& spots, double at_least) {
  for (const Spot spot : spots)
    at_least = std::max(at_least, spot.y);
  return at_least;
}

double highest_of(const std::vector<Spot>& spots, double at_most) {
  for (const Spot spot : spots)
    at_most = std::min(at_most, spot.y);
  return at_most;
}

std::vector<double> shown_energies(const ThresholdAnswer& answer) {
  std::vector<double> values;
  for (const SpecimenTest& test : answer.specimens->tests)
    values.push_back(test.energy.si());
  if (!answer.threshold.estimate) return values;
  // An end far out would press the tests together: it is drawn as an arrow.
  const auto [least, most] = std::minmax_element(values.begin(), values.end());
  const double low = *least / 2.0;
  const double high = *most * 2.0;
  for (const ThresholdEnergy* e :
       {&answer.threshold.estimate->e10, &answer.threshold.estimate->e50}) {
    for (const auto& end : {e->interval.low, e->interval.high, std::optional(e->estimate)}) {
      if (end && end->si() > low && end->si() < high) values.push_back(end->si());
    }
  }
  return values;
}

void draw_curve(Chart& chart, const Frame& frame, const Scale& x, const Scale& share,
                const ProbitFit& fit) {
  std::string path;
  constexpr int steps = 120;
  for (int i = 0; i <= steps; ++i) {
    const double at = frame.left + frame.width() * i / steps;
    const double part = (at - x.from()) / (x.to() - x.from());
    const double log_energy =
        std::log(x.values().low) + part * (std::log(x.values().high) - std::log(x.values().low));
    path += fmt::format("{}{} {}", i == 0 ? "M" : "L", detail::svg_number(at),
                        detail::svg_number(share.at(100.0 * fit.probability(log_energy))));
  }
  chart.svg().leaf("path",
                   {{"d", path}, {"fill", "none"}, {"stroke", detail::ink}, {"stroke-width", 2.0}});
}

/// An end that the data do not bound is drawn as an arrow at the edge.
void draw_interval(Chart& chart, const Scale& x, const Scale& share, const ThresholdEnergy& e) {
  const double y = share.at(100.0 * e.share);
  // No farther out than the axis can tell: the end may be as small as 0.
  const double least = x.values().low / 10.0;
  const double most = x.values().high * 10.0;
  const double low = e.interval.low ? std::clamp(e.interval.low->si(), least, most) : least;
  const double high = e.interval.high ? std::clamp(e.interval.high->si(), least, most) : most;
  chart.whisker_across(x, low, high, y);
  if (x.values().holds(e.estimate.si()))
    chart.mark({x.at(e.estimate.si()), y}, {MarkShape::triangle, true, 6.0});
}

/// A gap lies between the outcomes: not where both came at one energy.
bool has_gap(const SpecimenBracket& bracket) {
  return bracket.separated() && *bracket.highest_undamaged < *bracket.lowest_damaged;
}

/// Between the most energy without damage and the least with it, where they do not overlap.
void draw_gap(Chart& chart, const Frame& frame, const Scale& x, const SpecimenBracket& bracket) {
  if (!has_gap(bracket)) return;
  for (const Energy end : {*bracket.highest_undamaged, *bracket.lowest_damaged}) {
    const double at = x.at(end.si());
    chart.line({at, frame.top}, {at, frame.bottom}, {1.5, "6 4"});
  }
}

std::vector<LegendEntry> legend_of(const DamageThreshold& t) {
  const auto sign = [](const MarkLook& look) {
    return [look](Chart& chart, Spot at) { chart.mark(at, look); };
  };
  std::vector<LegendEntry> entries{{sign(damaged_look), "damaged specimen, at its energy"},
                                   {sign(other_mark), "specimen without damage, at its energy"}};
  if (t.estimate) {
    entries.push_back({[](Chart& chart, Spot at) {
                         chart.line({at.x - 14.0, at.y}, {at.x + 14.0, at.y}, {2.0});
                       },
                       "share that is damaged, as fitted"});
    entries.push_back(
        {sign({MarkShape::triangle, true, 6.0}),
         "E50 and E10, each with its 95 % interval; an arrow: the end lies beyond the axis, or the "
         "tests bound none"});
  } else if (has_gap(t.bracket)) {
    entries.push_back({[](Chart& chart, Spot at) {
                         chart.line({at.x, at.y - 8.0}, {at.x, at.y + 8.0}, {1.5, "6 4"});
                       },
                       "of these specimens damage began between these energies"});
  }
  return entries;
}

std::string described(const DamageThreshold& t) {
  std::string text =
      capitalised(tested_sentence(t)) + ". " + capitalised(bracket_sentence(t.bracket)) + ".";
  if (t.estimate) {
    text += " E50: " + threshold_sentence(t.estimate->e50) +
            ". E10: " + threshold_sentence(t.estimate->e10) + ".";
  }
  return text;
}

std::string drawn(const Figure& figure, const ThresholdAnswer& answer) {
  const DamageThreshold& t = answer.threshold;
  Frame frame{detail::left_of_axis + 20.0, detail::chart_width - 30.0, 0.0, 0.0};
  const Scale x = detail::log_scale(shown_energies(answer), frame.left, frame.right);
  // Laid out from 100 % at 0; moved below what is stacked above it.
  std::vector<Spot> above = stacked(answer.specimens->tests, true, x, -beside_marks, -between);
  const double top = detail::above_axis + beside_marks + 10.0 - highest_of(above, -beside_marks);
  for (Spot& spot : above)
    spot.y += top;
  frame.top = top;
  frame.bottom = top + curve_height;
  const std::vector<Spot> below =
      stacked(answer.specimens->tests, false, x, frame.bottom + beside_marks, between);
  const Frame whole{frame.left, frame.right, highest_of(above, top) - beside_marks,
                    lowest_of(below, frame.bottom) + beside_marks};
  const Legend legend(legend_of(t), frame.left);
  const double legend_at = whole.bottom + detail::below_axis + 6.0;
  Chart chart(figure, legend_at + legend.height() + 6.0);
  const Scale share(Scale::Kind::linear, {0.0, 100.0}, frame.bottom, frame.top);
  chart.axis_below(whole, x, "energy at the specimen in J");
  if (t.estimate) {
    chart.axis_left(frame, share, "");
    chart.write({frame.left - detail::left_of_axis + 8.0, whole.top - 8.0}, "share damaged in %");
    draw_curve(chart, frame, x, share, t.estimate->fit);
    draw_interval(chart, x, share, t.estimate->e50);
    draw_interval(chart, x, share, t.estimate->e10);
  } else {
    draw_gap(chart, whole, x, t.bracket);
  }
  chart.marks(above, damaged_look);
  chart.marks(below, other_mark);
  chart.outline(whole);
  legend.draw(chart, legend_at);
  return chart.finish();
}

}  // namespace

std::optional<Figure> threshold_picture(const ThresholdAnswer& answer) {
  if (answer.specimens->tests.empty()) return std::nullopt;
  Figure figure;
  figure.id = "threshold";
  figure.title = "Damage by energy of " + answer.specimens->title;
  figure.description = described(answer.threshold);
  figure.svg = drawn(figure, answer);
  return figure;
}

}  // namespace hailwright
