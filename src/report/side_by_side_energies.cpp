#include <fmt/format.h>

#include <algorithm>

#include "hailwright/physics/impact.hpp"
#include "report/chart.hpp"
#include "report/chart_legend.hpp"
#include "report/chart_rows.hpp"
#include "report/judgement_delivery.hpp"
#include "report/sentences.hpp"
#include "report/side_by_side.hpp"
#include "report/words.hpp"

namespace hailwright::detail {

namespace {

constexpr double bar_at = 30.0, least_row = 62.0;  // below the top of a row [ours]
constexpr MarkLook target_look{MarkShape::diamond, false, 8.0};

/// What a series delivered, beside what it aimed at.
struct EnergyRow {
  std::optional<Energy> at_least, at_most;
  Energy target;
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

EnergyRows rows_of(std::span<const Judged> judged) {
  EnergyRows rows;
  for (const Judged& one : judged) {
    for (const SeriesDelivery& delivery : one.assessment->delivery) {
      const SeriesPlan& plan = one.test->protocol.series[delivery.series];
      const Energy target = kinetic_energy({plan.target.mass}, {plan.target.speed}).value;
      rows.energies.push_back({delivery.at_least, delivery.at_most, target});
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
    values.push_back(row.target.si());
    for (const std::optional<Energy>& end : {row.at_least, row.at_most}) {
      if (end && end->si() > 0.0) values.push_back(end->si());
    }
  }
  return log_scale(values, frame.left, frame.right);
}

std::vector<LegendEntry> legend_of() {
  return {
      {[](Chart& chart, Spot at) {
         chart.line({at.x - 13.0, at.y}, {at.x + 13.0, at.y}, {2.5});
         for (const double x : {at.x - 13.0, at.x + 13.0})
           chart.line({x, at.y - 8.0}, {x, at.y + 8.0}, {2.5});
       },
       "from what the best hit of each place carried at least to what the hardest throw carried "
       "at most, each a bound of 95 % on one side"},
      {[](Chart& chart, Spot at) { chart.mark(at, target_look); }, "what was aimed at"},
      {{}, no_ranking}};
}

std::string drawn(const Figure& figure, const EnergyRows& data) {
  const ChartRows rows(data.words, least_row);
  const Frame frame = rows.frame(16.0);
  const Scale x = scale_of(data, frame);
  const double below = frame.bottom + below_axis + 6.0;
  const Legend legend(legend_of(), rows_left);
  Chart chart(figure, below + legend.height() + 6.0);
  chart.axis_below(frame, x, "energy at the panel in J, logarithmic");
  chart.outline(frame);
  rows.draw(chart, frame);
  for (std::size_t i = 0; i < data.energies.size(); ++i) {
    const EnergyRow& row = data.energies[i];
    const double y = rows.top(frame, i) + bar_at;
    chart.mark({x.at(row.target.si()), y}, target_look);
    if (row.at_least && row.at_most)
      chart.whisker_across(x, row.at_least->si(), row.at_most->si(), y, 8.0, {2.5});
  }
  legend.draw(chart, below);
  return chart.finish();
}

}  // namespace

std::optional<Figure> side_by_side_energies(std::span<const Judged> judged) {
  const EnergyRows rows = rows_of(judged);
  if (!rows.any_known()) return std::nullopt;
  Figure figure;
  figure.id = "energies";
  figure.title = "Delivered energies side by side";
  figure.description = rows_description(rows.words) + " The rows rank nothing.";
  figure.svg = drawn(figure, rows);
  return figure;
}

}  // namespace hailwright::detail
