#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "hailwright/report/pictures.hpp"
#include "report/chart.hpp"
#include "report/chart_legend.hpp"
#include "report/energy_picture_data.hpp"
#include "report/judgement_delivery.hpp"
#include "report/place_marks.hpp"
#include "report/words.hpp"

namespace hailwright {

namespace {

using detail::Chart;
using detail::Ends;
using detail::EnergyLevel;
using detail::EnergyMark;
using detail::EnergySeries;
using detail::EnergyView;
using detail::Frame;
using detail::Legend;
using detail::LegendEntry;
using detail::MarkLook;
using detail::MarkShape;
using detail::Scale;
using detail::Spot;
using detail::throw_numbers;

// Sizes in units of the picture [ours].
constexpr double frame_top = 34.0;
constexpr double least_height = 400.0;
constexpr double label_gap = 18.0;
constexpr double legend_left = 20.0;
constexpr double most_label = 230.0;  ///< width of the words at the right
constexpr const char* window_fill = "#ececec";

bool free_choice(const EnergyView& view) {
  return view.scheme.empty();
}

std::string level_words(const EnergyLevel& level) {
  const std::string energy =
      fmt::format("{}: {}", level.doubtful ? "*" : "", joule_text(level.value));
  const detail::Weight weight = level.aimed_at ? detail::Weight::bold : detail::Weight::usual;
  const double room = most_label - detail::text_units(energy, detail::tick_text_size, weight);
  return detail::shortened_to(level.name, room, detail::tick_text_size, weight) + energy;
}

double level_width(const EnergyLevel& level) {
  return detail::text_units(level_words(level), detail::tick_text_size,
                            level.aimed_at ? detail::Weight::bold : detail::Weight::usual);
}

/// What shape and fill of a mark say.
struct MarkKind {
  bool at_grade, on_place;
  [[nodiscard]] MarkLook look(double half) const {
    return {on_place ? MarkShape::disc : MarkShape::diamond, at_grade,
            on_place ? half : 1.25 * half};
  }
  [[nodiscard]] std::string words(bool free) const {
    return fmt::format("{}shown to be at least at {}, by mass and speed{}", at_grade ? "" : "not ",
                       free ? "what was aimed at" : "the grade aimed at",
                       on_place ? "" : "; on no place of its series");
  }
};

std::string series_line(const EnergySeries& series) {
  std::vector<int> drawn;
  for (const EnergyMark& mark : series.marks)
    drawn.push_back(mark.number);
  std::vector<std::string> not_drawn;
  const auto add = [&](const std::vector<int>& numbers, const char* why) {
    if (!numbers.empty()) not_drawn.push_back(fmt::format("{} {}", throw_numbers(numbers), why));
  };
  add(series.missed, "missed the panel");
  add(series.broken, "broke before it");
  add(series.unknown, "hit with an energy that is not known");
  const std::string on_it = drawn.empty() ? "none drawn" : throw_numbers(drawn);
  const std::string off_it =
      not_drawn.empty() ? "; no other throw" : "; not drawn: " + enumerate(not_drawn);
  return fmt::format("{}, aimed at {}: {}", series.name, series.target,
                     drawn.empty() && not_drawn.empty() ? "no throw" : on_it + off_it);
}

/// "15 mm 0.26 J and 45 mm 20.7 J".
std::string level_list(const std::vector<EnergyLevel>& levels) {
  std::vector<std::string> words;
  for (const EnergyLevel& level : levels)
    words.push_back(fmt::format("{} {}", level.name, joule_text(level.value)));
  return enumerate(words);
}

class EnergyPicture {
public:
  explicit EnergyPicture(const EnergyView& view)
      : view_(view), frame_(frame_of(view)), y_(scale_of(view, frame_)) {
    place_marks();
  }

  std::string draw(const Figure& figure) {
    const detail::AxisLabels numbers = detail::labels_along(
        mark_x_, numbers_, detail::tick_text_size, {frame_.left - 30.0, frame_.right + 30.0});
    const detail::AxisLabels names = detail::labels_along(
        series_x_, names_, detail::tick_text_size, {frame_.left - 70.0, detail::chart_width - 8.0});
    const double names_top = frame_.bottom + 8.0 + numbers.height + 10.0;
    const double title_y = names_top + 6.0 + names.height + 20.0;
    const Legend legend(legend_entries(), legend_left);
    Chart chart(figure, title_y + 16.0 + legend.height() + 6.0);
    draw_windows(chart);
    chart.axis_left(frame_, y_, "energy of the hit in J, logarithmic");
    draw_levels(chart);
    chart.outline(frame_);
    draw_marks(chart);
    chart.labels_below(frame_.bottom + 8.0, numbers, mark_x_, numbers_);
    draw_brackets(chart, names_top);
    chart.labels_below(names_top + 6.0, names, series_x_, names_);
    chart.write({(frame_.left + frame_.right) / 2.0, title_y}, "number of the throw, by series",
                {"middle"});
    legend.draw(chart, title_y + 16.0);
    return chart.finish();
  }

private:
  static Frame frame_of(const EnergyView& view) {
    double widest = 0.0;
    for (const EnergyLevel& level : view.levels)
      widest = std::max(widest, level_width(level));
    const double height =
        std::max(least_height, static_cast<double>(view.levels.size()) * label_gap);
    return {detail::left_of_axis, detail::chart_width - widest - 32.0, frame_top,
            frame_top + height};
  }

  static Scale scale_of(const EnergyView& view, const Frame& frame) {
    std::vector<double> values;
    const auto show = [&](Energy energy) {
      if (energy.si() > 0.0) values.push_back(energy.si());
    };
    for (const EnergyLevel& level : view.levels) {
      show(level.low);
      show(level.high);
    }
    for (const EnergySeries& series : view.series) {
      for (const EnergyMark& mark : series.marks) {
        show(mark.value);
        show(mark.low);
        show(mark.high);
      }
    }
    return detail::log_scale(values, frame.bottom, frame.top);
  }

  /// A slot for each mark, and an empty one between series.
  void place_marks() {
    std::size_t slots = 0;
    for (const EnergySeries& series : view_.series) {
      if (!series.marks.empty()) slots += series.marks.size() + 1;
    }
    slot_ = frame_.width() / static_cast<double>(slots);
    double x = frame_.left + slot_ / 2.0;
    for (const EnergySeries& series : view_.series) {
      if (series.marks.empty()) continue;
      const double from = x;
      for (const EnergyMark& mark : series.marks) {
        mark_x_.push_back(x + slot_ / 2.0);
        numbers_.push_back(std::to_string(mark.number));
        x += slot_;
      }
      brackets_.push_back({from, x});
      series_x_.push_back((from + x) / 2.0);
      names_.push_back(detail::shortened_to(series.name, 260.0, detail::tick_text_size));
      x += slot_;
    }
  }

  [[nodiscard]] double mark_half() const { return std::clamp(0.22 * slot_, 2.0, 4.5); }

  void draw_windows(Chart& chart) const {
    for (const EnergyLevel& level : view_.levels) {
      chart.box({frame_.left, frame_.right, y_.at(level.high.si()), y_.at(level.low.si())},
                window_fill, {0.0});
    }
  }

  void draw_levels(Chart& chart) const {
    std::vector<double> wanted;
    for (const EnergyLevel& level : view_.levels)
      wanted.push_back(y_.at(level.value.si()));
    const std::vector<double> at =
        detail::spread_apart(wanted, label_gap, {frame_.top, frame_.bottom});
    for (std::size_t i = 0; i < at.size(); ++i) {
      const EnergyLevel& level = view_.levels[i];
      chart.line({frame_.left, wanted[i]}, {frame_.right, wanted[i]}, level_line(level.aimed_at));
      chart.line({frame_.right, wanted[i]}, {frame_.right + 14.0, at[i]});
      chart.write({frame_.right + 18.0, at[i] + 5.0}, level_words(level),
                  {"start", detail::tick_text_size,
                   level.aimed_at ? detail::Weight::bold : detail::Weight::usual});
    }
  }

  static detail::LineLook level_line(bool aimed_at) {
    return aimed_at ? detail::LineLook{2.0} : detail::LineLook{1.0, "7 5"};
  }

  void draw_marks(Chart& chart) const {
    std::size_t i = 0;
    for (const EnergySeries& series : view_.series) {
      for (const EnergyMark& mark : series.marks) {
        const double x = mark_x_[i++];
        chart.whisker_up(y_, mark.low.si(), mark.high.si(), x, 1.5 * mark_half(), {1.5});
        chart.mark({x, y_.at(mark.value.si())},
                   MarkKind{mark.at_grade, mark.on_place}.look(mark_half()));
      }
    }
  }

  void draw_brackets(Chart& chart, double y) const {
    for (const Ends& bracket : brackets_) {
      chart.line({bracket.low, y}, {bracket.high, y});
      for (const double x : {bracket.low, bracket.high})
        chart.line({x, y}, {x, y - 5.0});
    }
  }

  [[nodiscard]] std::vector<LegendEntry> legend_entries() const {
    std::vector<LegendEntry> entries;
    for (const bool on_place : {true, false}) {
      for (const bool at_grade : {true, false}) {
        const MarkKind kind{at_grade, on_place};
        if (!occurs(kind)) continue;
        entries.push_back({[kind](Chart& chart, Spot at) { chart.mark(at, kind.look(5.0)); },
                           kind.words(free_choice(view_))});
      }
    }
    entries.push_back({draw_bar_sample,
                       "95 % interval, two-sided; \"at least\" and \"at most\" elsewhere are "
                       "one-sided bounds, a little nearer"});
    const std::string line = free_choice(view_)
                                 ? "what was aimed at"
                                 : "a grade of " + view_.scheme + ", the thick ones aimed at";
    entries.push_back(
        {draw_level_sample,
         line + "; grey: energies of balls with mass and speed inside the tolerance"});
    if (std::any_of(view_.levels.begin(), view_.levels.end(),
                    [](const EnergyLevel& level) { return level.doubtful; })) {
      entries.push_back({{}, "* a figure of this grade is from memory or derived, not read"});
    }
    if (!view_.far_levels.empty()) {
      entries.push_back(
          {{}, "too far away to be drawn, next in the scheme: " + level_list(view_.far_levels)});
    }
    for (const EnergySeries& series : view_.series)
      entries.push_back({{}, series_line(series)});
    return entries;
  }

  static void draw_bar_sample(Chart& chart, Spot at) {
    chart.line({at.x, at.y - 9.0}, {at.x, at.y + 9.0}, {1.5});
    for (const double y : {at.y - 9.0, at.y + 9.0})
      chart.line({at.x - 6.0, y}, {at.x + 6.0, y}, {1.5});
  }

  static void draw_level_sample(Chart& chart, Spot at) {
    chart.box({at.x - 14.0, at.x + 14.0, at.y - 7.0, at.y + 7.0}, window_fill, {0.0});
    chart.line({at.x - 14.0, at.y}, {at.x + 14.0, at.y}, level_line(true));
  }

  [[nodiscard]] bool occurs(const MarkKind& kind) const {
    return std::any_of(view_.series.begin(), view_.series.end(), [&](const EnergySeries& series) {
      return std::any_of(series.marks.begin(), series.marks.end(), [&](const EnergyMark& mark) {
        return mark.at_grade == kind.at_grade && mark.on_place == kind.on_place;
      });
    });
  }

  const EnergyView& view_;
  Frame frame_;
  Scale y_;
  double slot_ = 0.0;
  std::vector<double> mark_x_, series_x_;
  std::vector<std::string> numbers_, names_;
  std::vector<Ends> brackets_;
};

std::string description_of(const EnergyView& view) {
  std::string words;
  for (const EnergySeries& series : view.series) {
    if (!series.marks.empty()) {
      const auto [least, most] = std::minmax_element(
          series.marks.begin(), series.marks.end(),
          [](const EnergyMark& a, const EnergyMark& b) { return a.value < b.value; });
      words +=
          fmt::format("{} of {}: {} to {}. ", counted(static_cast<int>(series.marks.size()), "hit"),
                      series.name, joule_text(least->value), joule_text(most->value));
    }
    words += series_line(series) + ". ";
  }
  return words + fmt::format("Lines: {}. The table of throws has each energy with its interval.",
                             level_list(view.levels));
}

Figure figure_of(const EnergyView& view, std::string id) {
  Figure figure;
  figure.id = std::move(id);
  figure.title = free_choice(view)
                     ? std::string("Energy of each hit beside what was aimed at")
                     : fmt::format("Energy of each hit beside grades of {}", view.scheme);
  figure.description = description_of(view);
  figure.svg = EnergyPicture(view).draw(figure);
  return figure;
}

}  // namespace

std::vector<Figure> energy_pictures(const Judged& judged, std::string_view suffix) {
  std::vector<Figure> figures;
  for (const EnergyView& view : detail::view_energies(judged)) {
    // "shot-energy", "shot-energy-b", "shot-energy-c", ...
    const std::string more =
        figures.empty() ? "" : fmt::format("-{}", static_cast<char>('a' + figures.size()));
    figures.push_back(figure_of(view, fmt::format("shot-energy{}{}", more, suffix)));
  }
  return figures;
}

}  // namespace hailwright
