#include <fmt/format.h>

#include <algorithm>

#include "report/chart.hpp"
#include "report/chart_legend.hpp"
#include "report/chart_rows.hpp"
#include "report/judgement_power.hpp"
#include "report/loss_marks.hpp"
#include "report/sentences.hpp"
#include "report/side_by_side.hpp"

namespace hailwright::detail {

namespace {

// Below the top of a strip, in units of the picture [ours].
constexpr double band_at = 15.0, trials_at = 34.0, low_strip = 30.0, high_strip = 48.0;
constexpr LineLook limit_look{2.5};

struct LossRows {
  std::vector<const PowerResult*> results;
  std::vector<RowWords> words;
  [[nodiscard]] bool any_estimated() const {
    return std::any_of(results.begin(), results.end(),
                       [](const PowerResult* power) { return power->estimated(); });
  }
};

std::vector<std::string> facts_of(const PowerResult& p) {
  if (!p.estimated())
    return {"no comparison: " + obstacle_sentence(p.obstacle, p.obstacle_subject)};
  return {loss_or_gain(p), fmt::format("beyond {}? {}", limit_text(p.limit), beyond_answer(p))};
}

LossRows loss_rows_of(std::span<const Judged> judged) {
  LossRows rows;
  for (const Judged& one : judged) {
    const std::vector<PowerResult>& stages = one.assessment->power;
    for (const PowerResult& stage : stages) {
      std::string name = one.test->record.title;
      if (stages.size() > 1) name += ", " + stage_text(stage.stage, *one.test);
      rows.results.push_back(&stage);
      rows.words.push_back({std::move(name), facts_of(stage)});
    }
  }
  return rows;
}

/// The limit of all rows, where it is the same.
std::optional<Ratio> common_limit(const LossRows& rows) {
  std::optional<Ratio> common;
  for (const PowerResult* power : rows.results) {
    if (!power->estimated()) continue;
    if (common && *common != power->limit) return std::nullopt;
    common = power->limit;
  }
  return common;
}

std::vector<LossLevel> levels_of(const std::optional<Ratio>& limit) {
  std::vector<LossLevel> levels{{0.0, "no change", {1.5}}};
  if (limit) levels.push_back({loss_percent(*limit), "limit " + limit_text(*limit), limit_look});
  return levels;
}

Scale scale_of(const LossRows& rows, const Frame& frame) {
  std::vector<double> values{0.0};
  for (const PowerResult* power : rows.results) {
    if (!power->estimated()) continue;
    values.push_back(loss_percent(power->limit));
    show_loss(values, *power);
  }
  return linear_scale(values, frame.left, frame.right);
}

std::vector<LegendEntry> legend_of(const LossRows& rows, bool own_limits) {
  std::vector<LegendEntry> entries = loss_legend(rows.results);
  if (own_limits) {
    entries.push_back({[](Chart& chart, Spot at) {
                         chart.line({at.x, at.y - 9.0}, {at.x, at.y + 9.0}, limit_look);
                       },
                       "limit of this row's protocol"});
  }
  entries.push_back(zones_entry());
  entries.push_back({{}, no_ranking});
  return entries;
}

double loss_strip_height(const LossRows& rows) {
  const bool checked =
      std::any_of(rows.results.begin(), rows.results.end(), [](const PowerResult* power) {
        return power->estimated() && power->check.has_value();
      });
  return checked ? high_strip : low_strip;
}

void draw_row(Chart& chart, const Frame& strip, const Scale& x, const PowerResult& power) {
  if (!power.estimated()) return;
  const double limit = x.at(loss_percent(power.limit));
  draw_zones(chart, strip, x, power.limit);
  draw_interval(chart, x, power, strip.top + band_at);
  chart.line({limit, strip.top}, {limit, strip.bottom}, limit_look);
}

void draw_marks(Chart& chart, const Frame& strip, const Scale& x, const PowerResult& power) {
  if (!power.estimated()) return;
  if (power.check) draw_trials(chart, x, power, strip.top + trials_at);
  draw_loss(chart, x, power, strip.top + band_at);
}

std::string drawn(const Figure& figure, const LossRows& data) {
  const std::optional<Ratio> limit = common_limit(data);
  const Frame width = ChartRows({}, 0.0).frame(0.0);
  const Scale x = scale_of(data, width);
  const LossLevels levels(levels_of(limit), width, x);
  const ChartRows rows(data.words, loss_strip_height(data), levels.height() + 10.0);
  const Frame frame = rows.frame(8.0);
  const double below = frame.bottom + below_axis + 6.0;
  const Legend legend(legend_of(data, !limit), rows_left);
  Chart chart(figure, below + legend.height() + 6.0);
  rows.draw(chart, frame);
  levels.draw_words(chart, rows.strip(frame, 0));
  for (std::size_t i = 0; i < data.results.size(); ++i) {
    const Frame strip = rows.strip(frame, i);
    draw_row(chart, strip, x, *data.results[i]);
    levels.draw_lines(chart, strip);
    chart.ruler(strip, x);
    draw_marks(chart, strip, x, *data.results[i]);
  }
  chart.ruler_figures(rows.last_strip(frame), x, "loss of power in %");
  legend.draw(chart, below);
  return chart.finish();
}

}  // namespace

std::optional<Figure> side_by_side_losses(std::span<const Judged> judged) {
  const LossRows rows = loss_rows_of(judged);
  if (!rows.any_estimated()) return std::nullopt;
  Figure figure;
  figure.id = "losses";
  figure.title = "Losses of power side by side";
  figure.description = rows_description(rows.words) + no_ranking_described;
  figure.svg = drawn(figure, rows);
  return figure;
}

}  // namespace hailwright::detail
