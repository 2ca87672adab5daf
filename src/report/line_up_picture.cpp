#include "report/line_up_picture.hpp"

#include <fmt/format.h>

#include <optional>

#include "report/chart.hpp"
#include "report/chart_legend.hpp"
#include "report/chart_rows.hpp"
#include "report/line_up_rows.hpp"
#include "report/line_up_values.hpp"
#include "report/line_up_words.hpp"
#include "report/loss_marks.hpp"
#include "report/sentences.hpp"
#include "report/words.hpp"

namespace hailwright {

namespace {

using detail::Chart;
using detail::ChartRows;
using detail::Frame;
using detail::LegendEntry;
using detail::LineLook;
using detail::LineUpRows;
using detail::LineUpValue;
using detail::LossLevel;
using detail::LossLevels;
using detail::MarkShape;
using detail::RowWords;
using detail::Scale;

// Sizes in units of the picture [ours].
constexpr double rank_strip_height = 32.0;
constexpr double lane_left = 690.0;  ///< of the ranks, right of the values
constexpr double between_lanes = 26.0;
constexpr double value_at = 14.0;  ///< below the top of a strip
constexpr double band_half = 9.0;
constexpr double bracket_arm = 11.0, bracket_reach = 0.32;
constexpr int most_rank_figures = 6;
constexpr LineLook bracket_look{2.5};

/// A row of the picture: a panel, or what is left out between the top and the bottom.
struct RankRow {
  std::optional<LineUpValue> value;
  std::optional<LineUpRank> rank;
};

struct RankRows {
  std::vector<RankRow> rows;
  std::vector<RowWords> words;
};

RankRows rows_of(const LineUpView& view, const LineUpGroup& group) {
  const LineUpRows shown = detail::rows_shown(group);
  RankRows out;
  for (std::size_t i = 0; i < shown.rows.size(); ++i) {
    if (shown.gap() && i == shown.gap_before) {
      out.rows.emplace_back();
      out.words.push_back(
          {fmt::format("{} between", shown.left_out), {"not drawn; line-up.csv has every panel"}});
    }
    const LineUpRank& rank = group.ranks[shown.rows[i]];
    const LineUpEntry& entry = (*view.entries)[rank.entry];
    const auto value = detail::line_up_value(entry, view.line_up->order);
    out.rows.push_back({value, rank});
    out.words.push_back(
        {entry.title,
         {fmt::format("{}; rank {} of {}", value ? detail::value_text(*value) : "no number",
                      detail::rank_text(rank), group.ranks.size())}});
  }
  return out;
}

/// The limit of a group's records, which all have the same; for losses alone.
std::optional<Ratio> limit_of(const LineUpView& view, const LineUpGroup& group) {
  if (view.line_up->order != LineUpQuantity::loss) return std::nullopt;
  return (*view.entries)[group.ranks.front().entry].limit;
}

std::vector<LossLevel> levels_of(LineUpQuantity order, const std::optional<Ratio>& limit) {
  std::vector<LossLevel> levels;
  if (order == LineUpQuantity::loss) levels.push_back({0.0, "no change", {1.5}});
  if (limit) levels.push_back({detail::loss_percent(*limit), "limit " + limit_text(*limit), {2.5}});
  if (order == LineUpQuantity::share_of_rated) levels.push_back({100.0, "as rated", {1.5}});
  return levels;
}

Scale scale_of(const RankRows& rows, const std::vector<LossLevel>& levels, const Frame& lane) {
  std::vector<double> values;
  for (const LossLevel& level : levels)
    values.push_back(level.percent);
  for (const RankRow& row : rows.rows) {
    if (!row.value) continue;
    for (const double end : {row.value->low, row.value->value, row.value->high})
      values.push_back(end);
  }
  if (values.empty()) values.push_back(0.0);
  return detail::linear_scale(values, lane.left, lane.right);
}

Frame value_lane(const Frame& strip) {
  return {strip.left, lane_left - between_lanes, strip.top, strip.bottom};
}

Frame rank_lane(const Frame& strip) {
  return {lane_left, strip.right, strip.top, strip.bottom};
}

Scale rank_scale(std::size_t panels, const Frame& lane) {
  return {Scale::Kind::linear, {0.5, static_cast<double>(panels) + 0.5}, lane.left, lane.right};
}

/// Ranks with a figure: the first, and round ones that have room.
std::vector<int> rank_figures(int panels) {
  int step = 1;
  for (int power = 1; panels / step > most_rank_figures; power *= 10) {
    for (const int times : {1, 2, 5}) {
      step = times * power;
      if (panels / step <= most_rank_figures) break;
    }
  }
  std::vector<int> figures{1};
  for (int rank = step; rank <= panels; rank += step) {
    if (4 * (rank - figures.back()) >= 3 * step) figures.push_back(rank);
  }
  return figures;
}

void draw_interval(Chart& chart, const Scale& x, const LineUpValue& value, double y) {
  chart.band_across(x, value.low, value.high, y, band_half);
}

void draw_estimate(Chart& chart, const Scale& x, const LineUpValue& value, double y) {
  const detail::Spot at{x.clipped(value.value), y};
  chart.mark(at, {MarkShape::ring, false, 7.0});
  chart.mark(at, {MarkShape::disc, true, 3.5});
}

/// A bracket below the ranks that are left open, each marked as long as they can be told apart.
void draw_ranks(Chart& chart, const Scale& x, const LineUpRank& rank, double y, bool each) {
  const double left = x.at(rank.first - bracket_reach);
  const double right = x.at(rank.last + bracket_reach);
  const double foot = y + bracket_arm - 2.0;
  chart.line({left, y - bracket_arm}, {left, foot}, bracket_look);
  chart.line({right, y - bracket_arm}, {right, foot}, bracket_look);
  chart.line({left - 1.25, foot}, {right + 1.25, foot}, bracket_look);
  for (int r = rank.first; each && r <= rank.last; ++r)
    chart.mark({x.at(r), y - 2.0}, {MarkShape::disc, rank.first == rank.last, 5.0});
}

void draw_rank_lane(Chart& chart, const Frame& lane, const Scale& x, const RankRow& row,
                    int panels) {
  for (const int figure : rank_figures(panels))
    chart.line({x.at(figure), lane.top}, {x.at(figure), lane.bottom},
               {1.0, "none", detail::grid_ink});
  chart.box(lane, "none", {1.5});
  const bool each = static_cast<std::size_t>(panels) <= line_up_each_with_each;
  draw_ranks(chart, x, *row.rank, (lane.top + lane.bottom) / 2.0, each);
}

void draw_rank_figures(Chart& chart, const Frame& lane, const Scale& x, int panels) {
  for (const int figure : rank_figures(panels)) {
    chart.write({x.at(figure), lane.bottom + 20.0}, std::to_string(figure),
                {"middle", detail::tick_text_size});
  }
  chart.write({(lane.left + lane.right) / 2.0, lane.bottom + 44.0}, "ranks left open", {"middle"});
}

LegendEntry value_entry(const std::string& level) {
  return {[](Chart& chart, detail::Spot at) {
            const Scale x(Scale::Kind::linear, {0.0, 1.0}, at.x - 14.0, at.x + 14.0);
            const LineUpValue value{0.5, 0.0, 1.0};
            draw_interval(chart, x, value, at.y);
            draw_estimate(chart, x, value, at.y);
          },
          fmt::format("what a panel came to, and its own {} interval", level)};
}

LegendEntry bracket_entry() {
  return {[](Chart& chart, detail::Spot at) {
            const Scale x(Scale::Kind::linear, {0.5, 2.5}, at.x - 14.0, at.x + 14.0);
            draw_ranks(chart, x, {0, 1, 2}, at.y - 1.0, false);
          },
          "the ranks that its differences to the others leave open; where brackets stand one above "
          "the other, panels share ranks"};
}

std::vector<LegendEntry> legend_of(const RankRows& rows, bool limit) {
  std::vector<LegendEntry> entries;
  for (const RankRow& row : rows.rows) {
    if (!row.value) continue;
    entries.push_back(value_entry(row.value->level));
    break;
  }
  entries.push_back(bracket_entry());
  if (limit) entries.push_back(detail::zones_entry());
  entries.push_back({{},
                     "intervals that overlap do not decide: whether two panels were told apart is "
                     "a matter of their difference"});
  return entries;
}

std::string axis_title(const RankRows& rows, LineUpQuantity order) {
  for (const RankRow& row : rows.rows) {
    if (row.value) return fmt::format("{} in {}", detail::words_of(order).name, row.value->unit);
  }
  return std::string(detail::words_of(order).name);
}

void draw_left_out(Chart& chart, const Frame& strip) {
  const double y = (strip.top + strip.bottom) / 2.0;
  chart.line({strip.left, y}, {strip.right, y}, {1.5, "2 8"});
}

/// What all panels are held against.
struct HeldAgainst {
  const LossLevels& levels;
  const std::optional<Ratio>& limit;
};

void draw_value_lane(Chart& chart, const Frame& lane, const Scale& x, const RankRow& row,
                     const HeldAgainst& against) {
  const double y = lane.top + value_at;
  if (against.limit) detail::draw_zones(chart, lane, x, *against.limit);
  if (row.value) draw_interval(chart, x, *row.value, y);
  against.levels.draw_lines(chart, lane);
  chart.ruler(lane, x);
  if (row.value) draw_estimate(chart, x, *row.value, y);
}

std::string drawn(const Figure& figure, const LineUpView& view, const LineUpGroup& group,
                  const RankRows& data) {
  const LineUpQuantity order = view.line_up->order;
  const auto limit = limit_of(view, group);
  const int panels = static_cast<int>(group.ranks.size());
  const Frame width = ChartRows({}, 0.0).frame(0.0);
  const std::vector<LossLevel> held_against = levels_of(order, limit);
  const Scale x = scale_of(data, held_against, value_lane(width));
  const Scale ranks = rank_scale(group.ranks.size(), rank_lane(width));
  const LossLevels levels(held_against, value_lane(width), x);
  const ChartRows rows(data.words, rank_strip_height,
                       held_against.empty() ? 0.0 : levels.height() + 10.0);
  const Frame frame = rows.frame(8.0);
  const double below = frame.bottom + detail::below_axis + 6.0;
  const detail::Legend legend(legend_of(data, limit.has_value()), detail::rows_left);
  Chart chart(figure, below + legend.height() + 6.0);
  rows.draw(chart, frame);
  levels.draw_words(chart, value_lane(rows.strip(frame, 0)));
  for (std::size_t i = 0; i < data.rows.size(); ++i) {
    const RankRow& row = data.rows[i];
    const Frame strip = rows.strip(frame, i);
    if (!row.rank) {
      draw_left_out(chart, strip);
      continue;
    }
    draw_value_lane(chart, value_lane(strip), x, row, {levels, limit});
    draw_rank_lane(chart, rank_lane(strip), ranks, row, panels);
  }
  const Frame last = rows.last_strip(frame);
  chart.ruler_figures(value_lane(last), x, axis_title(data, order));
  draw_rank_figures(chart, rank_lane(last), ranks, panels);
  legend.draw(chart, below);
  return chart.finish();
}

}  // namespace

namespace detail {

Figure rank_picture(const LineUpView& view, const LineUpGroup& group, const std::string& suffix) {
  const RankRows rows = rows_of(view, group);
  Figure figure;
  figure.id = "ranks" + suffix;
  figure.title = capitalised(fmt::format("{} of {} panels in order, with the ranks left open",
                                         words_of(view.line_up->order).name, group.ranks.size()));
  figure.description = rows_description(rows.words);
  figure.svg = drawn(figure, view, group, rows);
  return figure;
}

}  // namespace detail

std::vector<Figure> line_up_pictures(const LineUpView& view) {
  std::vector<Figure> figures;
  for (std::size_t i = 0; i < view.line_up->groups.size(); ++i) {
    const std::string suffix = i == 0 ? "" : fmt::format("-{}", i + 1);
    figures.push_back(detail::rank_picture(view, view.line_up->groups[i], suffix));
    figures.push_back(detail::pair_picture(view, view.line_up->groups[i], suffix));
  }
  return figures;
}

}  // namespace hailwright
