#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <map>

#include "hailwright/report/pictures.hpp"
#include "report/chart.hpp"
#include "report/chart_legend.hpp"
#include "report/energy_picture_data.hpp"
#include "report/judgement_delivery.hpp"
#include "report/place_marks.hpp"
#include "report/sentences.hpp"
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
constexpr double first_frame_top = 34.0;
constexpr double least_height = 400.0;
constexpr double label_gap = 18.0;
constexpr double legend_indent = 20.0;
constexpr double most_label = 230.0;  ///< width of the words at the right
constexpr const char* window_fill = "#ececec";

bool free_choice(const EnergyView& view) {
  return view.scheme.empty();
}

/// A line across the picture with its words at the right.
struct LevelLine {
  double joule = 0.0;
  std::string words;
  detail::LineLook look;
  detail::Weight weight = detail::Weight::usual;
  [[nodiscard]] double width() const {
    return detail::text_units(words, detail::tick_text_size, weight);
  }
};

constexpr detail::LineLook edge_look{3.0};
constexpr detail::LineLook nominal_look{1.0};
constexpr detail::LineLook other_look{1.0, "7 5"};

LevelLine nominal_line(const EnergyLevel& level) {
  const std::string energy =
      fmt::format("{}: {}", level.doubtful ? "*" : "", joule_text(level.value));
  const double room = most_label - detail::text_units(energy, detail::tick_text_size);
  return {level.value.si(), detail::shortened_to(level.name, room, detail::tick_text_size) + energy,
          level.aimed_at ? nominal_look : other_look};
}

/// What a hit is held to, and under it the grade's own energy.
std::vector<LevelLine> lines_of(const EnergyView& view) {
  std::vector<LevelLine> lines;
  for (const EnergyLevel& level : view.levels) {
    if (level.aimed_at) {
      lines.push_back(
          {level.low.si(), "at least " + joule_text(level.low), edge_look, detail::Weight::bold});
    }
    lines.push_back(nominal_line(level));
  }
  return lines;
}

/// What shape and fill of a mark say.
struct MarkKind {
  bool at_grade, on_place;
  [[nodiscard]] MarkLook look(double half) const {
    return {on_place ? MarkShape::disc : MarkShape::diamond, at_grade,
            on_place ? half : 1.25 * half};
  }
  [[nodiscard]] std::string words(bool free) const {
    return fmt::format("{}shown to be at least at {}: mass and speed each by itself{}",
                       at_grade ? "" : "not ", free ? "what was aimed at" : "the grade aimed at",
                       on_place ? "" : "; on no place of its series");
  }
};

/// "; not shown at its grade: throw 4, speed not shown to be high enough".
std::string doubt_words(const EnergySeries& series) {
  std::map<std::string, std::vector<int>> by_reason;
  for (const EnergyMark& mark : series.marks) {
    if (!mark.at_grade) by_reason[doubt_text(mark.doubt)].push_back(mark.number);
  }
  std::vector<std::string> words;
  for (const auto& [why, numbers] : by_reason)
    words.push_back(fmt::format("{}, {}", throw_numbers(numbers), why));
  if (words.empty()) return "";
  return fmt::format("; not shown to be at least at it: {}", fmt::join(words, "; "));
}

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
                     drawn.empty() && not_drawn.empty() ? "no throw"
                                                        : on_it + off_it + doubt_words(series));
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
    const Legend legend(legend_entries(), legend_indent);
    Chart chart(figure, title_y + 16.0 + legend.height() + 6.0);
    draw_windows(chart);
    chart.axis_left(frame_, y_, "energy of the hit in J, logarithmic");
    draw_intervals(chart);
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
    const std::vector<LevelLine> lines = lines_of(view);
    for (const LevelLine& line : lines)
      widest = std::max(widest, line.width());
    const double height = std::max(least_height, static_cast<double>(lines.size()) * label_gap);
    return {detail::left_of_axis, detail::chart_width - widest - 32.0, first_frame_top,
            first_frame_top + height};
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
      if (!level.aimed_at) continue;
      chart.box({frame_.left, frame_.right, y_.at(level.high.si()), y_.at(level.low.si())},
                window_fill, {0.0});
    }
  }

  void draw_levels(Chart& chart) const {
    const std::vector<LevelLine> lines = lines_of(view_);
    std::vector<double> wanted;
    for (const LevelLine& line : lines)
      wanted.push_back(y_.at(line.joule));
    const std::vector<double> at =
        detail::spread_apart(wanted, label_gap, {frame_.top, frame_.bottom});
    for (std::size_t i = 0; i < at.size(); ++i) {
      chart.line({frame_.left, wanted[i]}, {frame_.right, wanted[i]}, lines[i].look);
      chart.line({frame_.right, wanted[i]}, {frame_.right + 14.0, at[i]});
      chart.write({frame_.right + 18.0, at[i] + 5.0}, lines[i].words,
                  {"start", detail::tick_text_size, lines[i].weight});
    }
  }

  void draw_intervals(Chart& chart) const {
    std::size_t i = 0;
    for (const EnergySeries& series : view_.series) {
      for (const EnergyMark& mark : series.marks)
        chart.band_up(y_, mark.low.si(), mark.high.si(), mark_x_[i++], 1.8 * mark_half(), {1.0});
    }
  }

  void draw_marks(Chart& chart) const {
    std::size_t i = 0;
    for (const EnergySeries& series : view_.series) {
      for (const EnergyMark& mark : series.marks) {
        chart.mark({mark_x_[i++], y_.at(mark.value.si())},
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
    const std::string aim = free_choice(view_) ? "what was aimed at" : "the grade aimed at";
    entries.push_back({[](Chart& chart, Spot at) {
                         chart.line({at.x - 14.0, at.y}, {at.x + 14.0, at.y}, edge_look);
                       },
                       "what a hit is held to: mass and speed both at the lower edge of the "
                       "tolerance of " +
                           aim});
    entries.push_back({draw_level_sample, "thin: " + aim +
                                              "; grey: mass and speed inside its "
                                              "tolerance"});
    if (std::any_of(view_.levels.begin(), view_.levels.end(),
                    [](const EnergyLevel& level) { return !level.aimed_at; })) {
      entries.push_back({[](Chart& chart, Spot at) {
                           chart.line({at.x - 14.0, at.y}, {at.x + 14.0, at.y}, other_look);
                         },
                         "another grade of " + view_.scheme + ", which nobody aimed at"});
    }
    if (std::any_of(view_.levels.begin(), view_.levels.end(),
                    [](const EnergyLevel& level) { return level.doubtful; })) {
      entries.push_back({{}, "* a figure of this grade is from memory or derived, not read"});
    }
    if (!view_.far_levels.empty()) {
      entries.push_back({{}, "next in the scheme, not drawn: " + level_list(view_.far_levels)});
    }
    for (const EnergySeries& series : view_.series)
      entries.push_back({{}, series_line(series)});
    return entries;
  }

  static void draw_bar_sample(Chart& chart, Spot at) {
    const Scale height(Scale::Kind::linear, {0.0, 1.0}, at.y + 9.0, at.y - 9.0);
    chart.band_up(height, 0.0, 1.0, at.x, 7.0, {1.0});
  }

  static void draw_level_sample(Chart& chart, Spot at) {
    chart.box({at.x - 14.0, at.x + 14.0, at.y - 7.0, at.y + 7.0}, window_fill, {0.0});
    chart.line({at.x - 14.0, at.y}, {at.x + 14.0, at.y}, nominal_look);
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
  for (const EnergyLevel& level : view.levels) {
    if (level.aimed_at) {
      words += fmt::format("A hit at {} is held to at least {}: mass and speed both at the lower "
                           "edge of the tolerance. ",
                           level.name, joule_text(level.low));
    }
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
