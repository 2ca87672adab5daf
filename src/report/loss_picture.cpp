#include <fmt/format.h>

#include <algorithm>

#include "hailwright/report/pictures.hpp"
#include "report/chart.hpp"
#include "report/chart_legend.hpp"
#include "report/chart_rows.hpp"
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
using detail::LossLevel;
using detail::LossLevels;
using detail::RowWords;
using detail::Scale;

// Below the top of a row, in units of the picture [ours].
constexpr double bar_at = 22.0, trials_at = 42.0, shown_at = 62.0, least_row = 82.0;

std::string stage_name(const PowerResult& p, const Test& test) {
  std::string name = stage_text(p.stage, test);
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
      loss_line(p), "a drop? " + real_answer(p),
      fmt::format("beyond {}? {}", limit_text(p.limit), beyond_answer(p))};
  if (p.usable()) {
    facts.push_back(fmt::format("a loss of {} would have shown {}", percent_text(p.smallest_shown),
                                chance_text(p.see_chance)));
  }
  if (p.check) facts.push_back("by random trials " + ends_text(p.check->low, p.check->high, p));
  if (reader != nullptr) facts.push_back(reader_limit_sentence(p, reader->limit, *answers));
  return facts;
}

/// The stages of a record with what is said of each.
struct Stages {
  std::vector<const PowerResult*> results;
  std::vector<RowWords> words;
};

Stages stages_of(const Judged& judged) {
  const ReaderLimit* reader = judged.reader_limit;
  Stages stages;
  const auto add = [&](const std::vector<PowerResult>& results,
                       const std::vector<LossAnswers> ReaderLimit::*answers) {
    for (std::size_t i = 0; i < results.size(); ++i) {
      const LossAnswers* answer = reader == nullptr ? nullptr : &(reader->*answers).at(i);
      stages.results.push_back(&results[i]);
      stages.words.push_back(
          {stage_name(results[i], *judged.test), facts_of(results[i], reader, answer)});
    }
  };
  add(judged.assessment->power, &ReaderLimit::power);
  add(judged.assessment->later_power, &ReaderLimit::later_power);
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

void draw_marks(Chart& chart, const Frame& frame, const Scale& x, const PowerResult& power,
                double top) {
  if (!power.estimated()) return;
  if (power.usable()) detail::draw_smallest_shown(chart, frame, x, power, top + shown_at);
  if (power.check) detail::draw_trials(chart, x, power, top + trials_at);
  detail::draw_loss(chart, x, power, top + bar_at);
}

std::string drawn(const Figure& figure, const Stages& stages,
                  const std::vector<LossLevel>& held_against) {
  const ChartRows rows(stages.words, least_row);
  const Scale x = scale_of(held_against, stages, rows.frame(0.0));
  const LossLevels levels(held_against, rows.frame(0.0), x);
  const Frame frame = rows.frame(levels.height() + 16.0);
  const double below = frame.bottom + detail::below_axis + 6.0;
  const Legend legend(detail::loss_legend(stages.results), detail::rows_left);
  Chart chart(figure, below + legend.height() + 6.0);
  chart.axis_below(frame, x, "loss of power in %");
  levels.draw(chart, frame);
  chart.outline(frame);
  rows.draw(chart, frame);
  for (std::size_t i = 0; i < stages.results.size(); ++i)
    draw_marks(chart, frame, x, *stages.results[i], rows.top(frame, i));
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
  figure.svg = drawn(figure, stages, levels_of((*estimated)->limit, judged.reader_limit));
  return figure;
}

}  // namespace hailwright
