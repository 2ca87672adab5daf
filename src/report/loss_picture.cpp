#include <fmt/format.h>

#include <algorithm>

#include "hailwright/report/pictures.hpp"
#include "report/chart.hpp"
#include "report/chart_legend.hpp"
#include "report/chart_rows.hpp"
#include "report/judged_stages.hpp"
#include "report/judgement_power.hpp"
#include "report/loss_marks.hpp"
#include "report/sentences.hpp"
#include "report/shown_loss.hpp"
#include "report/words.hpp"

namespace hailwright {

namespace {

using detail::Chart;
using detail::ChartRows;
using detail::Frame;
using detail::Legend;
using detail::LegendEntry;
using detail::LossLevel;
using detail::LossLevels;
using detail::RowWords;
using detail::Scale;

// Below the top of a strip, in units of the picture [ours].
constexpr double band_at = 18.0, more_at = 42.0, next_lane = 16.0, end_of_strip = 14.0;

std::string stage_name(const PowerResult& p, const Test& test) {
  std::string name = stage_text(p.stage, test);
  if (p.stage.kind == StageKind::after) name = "after the shots";
  if (p.stage.kind == StageKind::later && p.days_after_shots) {
    name += fmt::format(", {} after the shots", counted(*p.days_after_shots, "day"));
  }
  return name;
}

std::vector<std::string> facts_of(const PowerResult& p, const ReaderLimit* reader,
                                  const LossAnswers* answers) {
  if (!p.estimated())
    return {"no comparison: " + obstacle_sentence(p.obstacle, p.obstacle_subject)};
  std::vector<std::string> facts{
      detail::loss_or_gain(p), "a drop? " + real_answer(p),
      fmt::format("beyond {}? {}", limit_text(p.limit), beyond_answer(p))};
  if (p.usable()) {
    facts.push_back(fmt::format("a loss of {} would have shown {}", percent_text(p.smallest_shown),
                                chance_text(p.see_chance)));
  }
  if (p.check) facts.push_back("by random trials " + ends_text(p.check->low, p.check->high, p));
  // A stage that answers for another stress alone has none.
  if (reader != nullptr && answers != nullptr)
    facts.push_back(reader_limit_sentence(p, reader->limit, *answers));
  return facts;
}

/// The stages of a record with what is said of each.
struct Stages {
  std::vector<const PowerResult*> results;
  std::vector<RowWords> words;
};

Stages stages_of(const Judged& judged) {
  Stages stages;
  for (const JudgedStage& stage : judged_stages(judged)) {
    stages.results.push_back(stage.power);
    stages.words.push_back({stage_name(*stage.power, *judged.test),
                            facts_of(*stage.power, judged.reader_limit, stage.reader)});
  }
  return stages;
}

/// What all stages are held against; the limit is the protocol's, so one for all.
std::vector<LossLevel> levels_of(Ratio limit, const ReaderLimit* reader) {
  std::vector<LossLevel> levels{{0.0, "no change", {1.5}},
                                {detail::loss_percent(limit), "limit " + limit_text(limit), {2.5}}};
  if (reader != nullptr) {
    levels.push_back({detail::loss_percent(reader->limit),
                      "a reader's limit " + limit_text(reader->limit),
                      {2.0, "8 5"}});
  }
  return levels;
}

Scale scale_of(const std::vector<LossLevel>& levels, const Stages& stages, const Frame& frame) {
  std::vector<double> values;
  for (const LossLevel& level : levels)
    values.push_back(level.percent);
  for (const PowerResult* power : stages.results)
    detail::show_loss(values, *power);
  return detail::linear_scale(values, frame.left, frame.right);
}

/// The lanes of a strip: the loss, and below it what some of the stages have.
struct Lanes {
  bool trials = false, shown = false;
  explicit Lanes(const Stages& stages) {
    for (const PowerResult* power : stages.results) {
      if (!power->estimated()) continue;
      trials = trials || power->check.has_value();
      shown = shown || power->usable();
    }
  }
  [[nodiscard]] double height() const {
    return more_at - end_of_strip + (trials ? next_lane : 0.0) + (shown ? next_lane : 0.0) + 4.0;
  }
  [[nodiscard]] double shown_at() const { return more_at + (trials ? next_lane : 0.0); }
};

void draw_marks(Chart& chart, const Lanes& lanes, const Scale& x, const PowerResult& power,
                double top) {
  if (!power.estimated()) return;
  if (power.usable()) detail::draw_smallest_shown(chart, x, power, top + lanes.shown_at());
  if (power.check) detail::draw_trials(chart, x, power, top + more_at);
  detail::draw_loss(chart, x, power, top + band_at);
}

std::vector<LegendEntry> legend_of(const Stages& stages, const Lanes& lanes) {
  std::vector<LegendEntry> entries = detail::loss_legend(stages.results);
  if (lanes.shown) entries.push_back(detail::smallest_shown_entry());
  entries.push_back(detail::zones_entry());
  return entries;
}

std::string drawn(const Figure& figure, const Stages& stages,
                  const std::vector<LossLevel>& held_against, Ratio limit) {
  const Lanes lanes(stages);
  const Frame width = ChartRows({}, lanes.height()).frame(0.0);
  const Scale x = scale_of(held_against, stages, width);
  const LossLevels levels(held_against, width, x);
  const ChartRows rows(stages.words, lanes.height(), levels.height() + 10.0);
  const Frame frame = rows.frame(8.0);
  const double below = frame.bottom + detail::below_axis + 6.0;
  const Legend legend(legend_of(stages, lanes), detail::rows_left);
  Chart chart(figure, below + legend.height() + 6.0);
  rows.draw(chart, frame);
  levels.draw_words(chart, rows.strip(frame, 0));
  for (std::size_t i = 0; i < stages.results.size(); ++i) {
    const Frame strip = rows.strip(frame, i);
    detail::draw_zones(chart, strip, x, limit);
    const PowerResult& power = *stages.results[i];
    if (power.estimated()) detail::draw_interval(chart, x, power, strip.top + band_at);
    levels.draw_lines(chart, strip);
    chart.ruler(strip, x);
    draw_marks(chart, lanes, x, power, strip.top);
  }
  chart.ruler_figures(rows.last_strip(frame), x, "loss of power in %");
  legend.draw(chart, below);
  return chart.finish();
}

}  // namespace

std::optional<Figure> loss_picture(const Judged& judged, std::string_view suffix) {
  const Stages stages = stages_of(judged);
  const auto estimated = std::find_if(stages.results.begin(), stages.results.end(),
                                      [](const PowerResult* power) { return power->estimated(); });
  if (estimated == stages.results.end()) return std::nullopt;
  Figure figure;
  figure.id = fmt::format("loss{}", suffix);
  figure.title = "Loss of power of " + judged.test->record.title;
  figure.description = detail::rows_description(stages.words);
  const Ratio limit = (*estimated)->limit;
  figure.svg = drawn(figure, stages, levels_of(limit, judged.reader_limit), limit);
  return figure;
}

}  // namespace hailwright
