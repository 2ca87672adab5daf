#include <fmt/format.h>

#include <algorithm>

#include "hailwright/report/pictures.hpp"
#include "report/budget_rows.hpp"
#include "report/chart_legend.hpp"
#include "report/power_picture_words.hpp"
#include "report/sentences.hpp"
#include "report/words.hpp"

namespace hailwright {

namespace {

using detail::below_axis;
using detail::Chart;
using detail::chart_text_size;
using detail::chart_width;
using detail::Frame;
using detail::Legend;
using detail::Scale;
using detail::shortened_to;
using detail::stage_id;
using detail::Weight;

// Sizes in units of the picture [ours].
constexpr double frame_left = 330.0, frame_right = 830.0, frame_top = 34.0;
constexpr double points_right = frame_right + 82.0, share_right = chart_width - 20.0;
constexpr double row_height = 30.0;
constexpr double bar_half = 8.0;

std::string description_of(const std::vector<ShownBudgetRow>& bars) {
  std::string words =
      "Standard uncertainties in percentage points of the loss, largest first, with "
      "their shares of the variance: ";
  for (const ShownBudgetRow& bar : bars) {
    words += fmt::format("{}{}: {} points, {}", &bar == bars.data() ? "" : "; ", bar.label,
                         bar.number, bar.share);
  }
  return words + ".";
}

class BudgetPicture {
public:
  explicit BudgetPicture(std::vector<ShownBudgetRow> bars)
      : bars_(std::move(bars)), frame_{frame_left, frame_right, frame_top,
                                       frame_top + row_height * static_cast<double>(bars_.size())},
        x_(Scale::Kind::linear, {0.0, largest() * 1.05}, frame_left, frame_right) {}

  std::string draw(const Figure& figure) const {
    const Legend legend({{nullptr, "The bars do not add up: the square of the last one is the sum "
                                   "of the squares of the others."}},
                        24.0);
    const double legend_top = frame_.bottom + below_axis + 8.0;
    Chart chart(figure, legend_top + legend.height() + 6.0);
    chart.axis_below(frame_, x_, "standard uncertainty, percentage points of the loss");
    chart.write({points_right, frame_top - 12.0}, "points", {"end"});
    chart.write({share_right, frame_top - 12.0}, "share", {"end"});
    for (std::size_t i = 0; i < bars_.size(); ++i)
      draw_bar(chart, bars_[i], frame_.top + row_height * (static_cast<double>(i) + 0.5));
    chart.line({frame_.left, frame_.top}, {frame_.left, frame_.bottom}, {1.5});
    legend.draw(chart, legend_top);
    return chart.finish();
  }

private:
  [[nodiscard]] double largest() const {
    double most = 0.0;
    for (const ShownBudgetRow& bar : bars_)
      most = std::max(most, bar.points);
    return most > 0.0 ? most : 1.0;
  }

  void draw_bar(Chart& chart, const ShownBudgetRow& bar, double y) const {
    const Weight weight = bar.together ? Weight::bold : Weight::usual;
    const double room = frame_left - 36.0;
    chart.write({frame_left - 12.0, y + 5.0},
                shortened_to(bar.label, room, chart_text_size, weight),
                {"end", chart_text_size, weight});
    const Frame shape{frame_left, x_.at(bar.points), y - bar_half, y + bar_half};
    if (bar.points > 0.0) {
      chart.box(shape, bar.together ? "#fff" : "#8a8a8a", {bar.together ? 2.0 : 1.0});
    }
    chart.write({points_right, y + 5.0}, bar.number, {"end", chart_text_size, weight});
    chart.write({share_right, y + 5.0}, bar.share, {"end", chart_text_size, weight});
  }

  std::vector<ShownBudgetRow> bars_;
  Frame frame_;
  Scale x_;
};

}  // namespace

std::optional<Figure> budget_picture(const Judged& judged, const PowerResult& power,
                                     std::string_view suffix) {
  if (!power.estimated() || power.budget.empty()) return std::nullopt;
  const Test& test = *judged.test;
  std::vector<ShownBudgetRow> bars = shown_budget(power);
  Figure figure;
  figure.id = fmt::format("budget-{}{}", stage_id(power.stage), suffix);
  figure.title = fmt::format("Where the uncertainty of the loss of {} comes from, {}",
                             test.record.title, stage_text(power.stage, test));
  figure.description = description_of(bars);
  figure.svg = BudgetPicture(std::move(bars)).draw(figure);
  return figure;
}

}  // namespace hailwright
