#include <fmt/format.h>

#include <algorithm>

#include "hailwright/physics/impact.hpp"
#include "report/chart.hpp"
#include "report/chart_legend.hpp"
#include "report/chart_rows.hpp"
#include "report/judgement_delivery.hpp"
#include "report/sentences.hpp"
#include "report/shown_energy.hpp"
#include "report/side_by_side.hpp"
#include "report/words.hpp"

namespace hailwright::detail {

namespace {

constexpr double energy_strip_height = 26.0;  // in units of the picture [ours]
constexpr double energy_band_half = 7.0;
constexpr LineLook edge_look{3.0}, target_look{1.0};
constexpr const char* window_fill = "#ececec";

/// What a series delivered, beside what it aimed at.
struct EnergyRow {
  std::optional<Energy> at_least, at_most;
  Energy target;
  EnergyEnds window;  ///< of balls with mass and speed inside the tolerance of the target
};

struct EnergyRows {
  std::vector<EnergyRow> energies;
  std::vector<RowWords> words;
  [[nodiscard]] bool any_known() const {
    return std::any_of(energies.begin(), energies.end(),
                       [](const EnergyRow& row) { return row.at_least && row.at_most; });
  }
};

std::string delivered_text(const SeriesDelivery& delivery) {
  if (delivery.places_hit == 0) return "no place was hit";
  if (!delivery.at_least || !delivery.at_most) return "with an energy that is not known";
  return fmt::format("{} of {} hit: {} to {}", delivery.places_hit,
                     counted(static_cast<int>(delivery.places.size()), "place"),
                     joule_text(*delivery.at_least), joule_text(*delivery.at_most));
}

EnergyRows energy_rows_of(std::span<const Judged> judged) {
  EnergyRows rows;
  for (const Judged& one : judged) {
    for (const SeriesDelivery& delivery : one.assessment->delivery) {
      const SeriesPlan& plan = one.test->protocol.series[delivery.series];
      const Energy target = kinetic_energy({plan.target.mass}, {plan.target.speed}).value;
      rows.energies.push_back({delivery.at_least, delivery.at_most, target,
                               corners_of_tolerance(target, delivery.tolerance)});
      rows.words.push_back({one.test->record.title,
                            {fmt::format("{}, aimed at {}: {}", plan.name, target_text(plan.target),
                                         joule_text(target)),
                             delivered_text(delivery)}});
    }
  }
  return rows;
}

Scale scale_of(const EnergyRows& rows, const Frame& frame) {
  std::vector<double> values;
  for (const EnergyRow& row : rows.energies) {
    values.push_back(row.window.low.si());
    values.push_back(row.window.high.si());
    for (const std::optional<Energy>& end : {row.at_least, row.at_most}) {
      if (end && end->si() > 0.0) values.push_back(end->si());
    }
  }
  return log_scale(values, frame.left, frame.right);
}

std::vector<LegendEntry> legend_of() {
  return {
      {[](Chart& chart, Spot at) {
         const Scale x(Scale::Kind::linear, {0.0, 1.0}, at.x - 13.0, at.x + 13.0);
         chart.band_across(x, 0.0, 1.0, at.y, energy_band_half);
       },
       "from what the best hit of each place carried at least to what the hardest throw carried "
       "at most, each a bound of 95 % on one side"},
      {[](Chart& chart, Spot at) {
         chart.line({at.x, at.y - 9.0}, {at.x, at.y + 9.0}, edge_look);
       },
       "what a hit is held to: mass and speed both at the lower edge of the tolerance of what was "
       "aimed at"},
      {[](Chart& chart, Spot at) {
         chart.box({at.x - 13.0, at.x + 13.0, at.y - 9.0, at.y + 9.0}, window_fill, {0.0});
         chart.line({at.x, at.y - 9.0}, {at.x, at.y + 9.0}, target_look);
       },
       "thin: what was aimed at; grey: mass and speed inside its tolerance"},
      {{}, no_ranking}};
}

void draw_row(Chart& chart, const Frame& strip, const Scale& x, const EnergyRow& row) {
  const auto upright = [&](Energy at, const LineLook& look) {
    chart.line({x.at(at.si()), strip.top}, {x.at(at.si()), strip.bottom}, look);
  };
  chart.box({x.at(row.window.low.si()), x.at(row.window.high.si()), strip.top, strip.bottom},
            window_fill, {0.0});
  chart.ruler(strip, x);
  if (row.at_least && row.at_most)
    chart.band_across(x, row.at_least->si(), row.at_most->si(), (strip.top + strip.bottom) / 2.0,
                      energy_band_half);
  upright(row.window.low, edge_look);
  upright(row.target, target_look);
}

std::string drawn(const Figure& figure, const EnergyRows& data) {
  const ChartRows rows(data.words, energy_strip_height);
  const Frame frame = rows.frame(8.0);
  const Scale x = scale_of(data, frame);
  const double below = frame.bottom + below_axis + 6.0;
  const Legend legend(legend_of(), rows_left);
  Chart chart(figure, below + legend.height() + 6.0);
  rows.draw(chart, frame);
  for (std::size_t i = 0; i < data.energies.size(); ++i)
    draw_row(chart, rows.strip(frame, i), x, data.energies[i]);
  chart.ruler_figures(rows.last_strip(frame), x, "energy at the panel in J, logarithmic");
  legend.draw(chart, below);
  return chart.finish();
}

}  // namespace

std::optional<Figure> side_by_side_energies(std::span<const Judged> judged) {
  const EnergyRows rows = energy_rows_of(judged);
  if (!rows.any_known()) return std::nullopt;
  Figure figure;
  figure.id = "energies";
  figure.title = "Delivered energies side by side";
  figure.description = rows_description(rows.words) + no_ranking_described;
  figure.svg = drawn(figure, rows);
  return figure;
}

}  // namespace hailwright::detail
