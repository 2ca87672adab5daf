#include <fmt/format.h>

#include <algorithm>

#include "hailwright/report/pictures.hpp"
#include "report/chart_legend.hpp"
#include "report/power_picture_data.hpp"
#include "report/power_picture_words.hpp"

namespace hailwright {

namespace {

using detail::AxisLabels;
using detail::Chart;
using detail::chart_width;
using detail::Ends;
using detail::ends_of;
using detail::faint_ink;
using detail::Frame;
using detail::labels_along;
using detail::Legend;
using detail::LegendEntry;
using detail::linear_scale;
using detail::LineLook;
using detail::MarkLook;
using detail::MarkShape;
using detail::PowerColumn;
using detail::PowerGroup;
using detail::PowerView;
using detail::PowerWords;
using detail::Scale;
using detail::shortened_to;
using detail::Spot;
using detail::Spread;
using detail::spread_apart;
using detail::spread_of;
using detail::stage_id;
using detail::tick_text_size;
using detail::ticks;
using detail::view_power;

// Sizes in units of the picture [ours].
constexpr Frame frame{100.0, 840.0, 40.0, 420.0};
constexpr double level_words = frame.right + 16.0;
constexpr double level_gap = 19.0;
/// Readings that are drawn one by one; more are drawn as their spread in each set-up.
constexpr std::size_t most_readings = 600;
constexpr double between_groups = 0.6;  ///< of a column's room
constexpr double most_room = 60.0;      ///< that the readings of a column take

constexpr LineLook level_look{2.0};
constexpr LineLook onward_look{1.5, "9 5"};
constexpr LineLook limit_look{2.0, "2 4"};
constexpr MarkLook reading_look{MarkShape::disc, true, 2.5, faint_ink};
constexpr MarkLook apart_look{MarkShape::diamond, false, 6.0};
constexpr MarkLook skipped_look{MarkShape::cross, false, 4.0, faint_ink};
constexpr MarkLook setup_look{MarkShape::ring, false, 8.0};

/// Where the columns stand.
struct Columns {
  double room = 0.0;                         ///< of one
  std::vector<std::vector<double>> middles;  ///< by group
  double result = 0.0;                       ///< of the mean compared, right of its set-ups
  [[nodiscard]] double left_of(std::size_t group) const {
    return middles[group].front() - room / 2;
  }
  [[nodiscard]] double right_of(std::size_t group) const {
    return middles[group].back() + room / 2;
  }
};

Columns columns_of(const PowerView& view) {
  const auto gaps = static_cast<double>(view.groups.size() + 1);
  Columns columns;
  columns.room =
      frame.width() / (static_cast<double>(view.columns()) + 1.0 + between_groups * gaps);
  double at = frame.left + columns.room * between_groups;
  for (const PowerGroup& group : view.groups) {
    std::vector<double> middles;
    for (std::size_t i = 0; i < group.columns.size(); ++i) {
      middles.push_back(at + columns.room / 2.0);
      at += columns.room;
    }
    columns.middles.push_back(std::move(middles));
    at += columns.room * between_groups;
  }
  columns.result = at - columns.room * between_groups + columns.room / 2.0;
  return columns;
}

/// Labels of the columns, of their days and of their groups, each placed as a row of its own.
struct LabelRow {
  std::vector<double> at;
  std::vector<std::string> words;
  AxisLabels placed;

  void add(double x, const std::string& text) {
    constexpr double widest = 220.0;
    at.push_back(x);
    words.push_back(shortened_to(text, widest, tick_text_size));
  }
  void place() {
    placed = labels_along(at, words, tick_text_size, {frame.left - 60.0, chart_width - 10.0});
  }
};

class PowerPicture {
public:
  PowerPicture(const Judged& judged, const PowerResult& power, std::string_view suffix)
      : usable_(power.usable()), view_(view_power(*judged.test, power)),
        words_(*judged.test, power, view_), columns_(columns_of(view_)), y_(scale()),
        dense_(view_.readings() > most_readings), legend_(legend_entries(), frame.left - 60.0) {
    collect_labels();
    figure_.id = fmt::format("power-by-set-up-{}{}", stage_id(power.stage), suffix);
    figure_.title = words_.title();
    figure_.description = words_.description();
  }
  PowerPicture(const PowerPicture&) = delete;
  PowerPicture& operator=(const PowerPicture&) = delete;
  PowerPicture(PowerPicture&&) = delete;
  PowerPicture& operator=(PowerPicture&&) = delete;
  ~PowerPicture() = default;

  Figure draw() {
    const double labels_top = frame.bottom + 8.0;
    const double legend_top =
        labels_top + numbers_.placed.height + days_.placed.height + titles_.placed.height + 22.0;
    Chart chart(figure_, legend_top + legend_.height() + 10.0);
    chart.axis_left(frame, y_, words_.axis());
    draw_ground(chart);
    draw_columns(chart);
    draw_levels(chart);
    draw_labels(chart, labels_top);
    legend_.draw(chart, legend_top);
    figure_.svg = chart.finish();
    return std::move(figure_);
  }

private:
  // Legend

  template <const MarkLook& look>
  static void sign(Chart& chart, Spot at) {
    chart.mark(at, look);
  }

  [[nodiscard]] std::vector<LegendEntry> legend_entries() const {
    std::vector<LegendEntry> entries{readings_entry()};
    if (view_.apart() > 0) entries.push_back({sign<apart_look>, words_.apart()});
    if (view_.skipped() > 0) {
      entries.push_back({sign<skipped_look>, words_.skipped(skipped_beyond())});
    }
    entries.push_back({sign<setup_look>, "mean of a set-up"});
    entries.push_back({[](Chart& chart, Spot at) {
                         chart.line({at.x - 14.0, at.y}, {at.x, at.y}, level_look);
                         chart.line({at.x, at.y}, {at.x + 14.0, at.y}, onward_look);
                       },
                       words_.from_mean()});
    entries.push_back(
        {[this](Chart& chart, Spot at) {
           const Scale height(Scale::Kind::linear, {0.0, 1.0}, at.y + 9.0, at.y - 9.0);
           chart.band_up(height, 0.0, 1.0, at.x, 7.0, interval_look());
           MarkLook look = result_look();
           look.half = 4.0;
           chart.mark(at, look);
         },
         to_mean_words()});
    entries.push_back({[](Chart& chart, Spot at) {
                         chart.line({at.x - 14.0, at.y}, {at.x + 14.0, at.y}, limit_look);
                       },
                       words_.limit()});
    entries.push_back({nullptr, words_.notes()});
    return entries;
  }

  [[nodiscard]] std::string to_mean_words() const {
    const bool whole =
        y_.values().holds(view_.to_interval.low) && y_.values().holds(view_.to_interval.high);
    return words_.to_mean() + (whole ? "" : "; it goes on where an arrow stands");
  }

  [[nodiscard]] LegendEntry readings_entry() const {
    if (dense_) {
      return {[](Chart& chart, Spot at) {
                draw_spread(chart, at.x, 8.0, {at.y + 9.0, at.y + 4.0, at.y - 4.0, at.y - 9.0});
              },
              words_.readings(false)};
    }
    return {[](Chart& chart, Spot at) {
              chart.marks({{at.x - 9.0, at.y}, {at.x, at.y}, {at.x + 9.0, at.y}}, reading_look);
            },
            words_.readings(true)};
  }

  // Axis

  /// The means, the limit and all readings that count.
  [[nodiscard]] std::vector<double> counted_values() const {
    std::vector<double> values{view_.from, view_.to, view_.limit};
    for (const PowerGroup& group : view_.groups) {
      for (const PowerColumn& c : group.columns) {
        values.push_back(c.mean);
        values.insert(values.end(), c.readings.begin(), c.readings.end());
        values.insert(values.end(), c.apart.begin(), c.apart.end());
      }
    }
    return values;
  }

  /// What counts is within the axis; the ends of the interval and what was left out only where they
  /// do not squeeze it: within so many times its stretch [ours].
  [[nodiscard]] Scale scale() const {
    std::vector<double> values = counted_values();
    const Ends counted_ends = ends_of(values);
    const auto take = [&](const std::vector<double>& more, double times) {
      const double far = times * counted_ends.length();
      const Ends near{counted_ends.low - far, counted_ends.high + far};
      std::copy_if(more.begin(), more.end(), std::back_inserter(values),
                   [&](double v) { return near.holds(v); });
    };
    take({view_.to_interval.low, view_.to_interval.high}, 3.0);
    for (const PowerGroup& group : view_.groups) {
      for (const PowerColumn& c : group.columns)
        take(c.skipped, 0.3);
    }
    return linear_scale(values, frame.bottom, frame.top);
  }

  [[nodiscard]] std::size_t skipped_beyond() const {
    std::size_t n = 0;
    for (const PowerGroup& group : view_.groups) {
      for (const PowerColumn& c : group.columns) {
        n += static_cast<std::size_t>(std::count_if(
            c.skipped.begin(), c.skipped.end(), [&](double v) { return !y_.values().holds(v); }));
      }
    }
    return n;
  }

  // Columns

  /// Readings of a column side by side in their order.
  [[nodiscard]] std::vector<Spot> spots(const std::vector<double>& values, double middle) const {
    const double room = std::min(most_room, 0.7 * columns_.room);
    std::vector<Spot> all;
    const auto n = static_cast<double>(values.size());
    for (std::size_t i = 0; i < values.size(); ++i) {
      const double share = (static_cast<double>(i) + 0.5) / n - 0.5;
      all.push_back({middle + share * room, y_.clipped(values[i])});
    }
    return all;
  }

  /// In units of the picture.
  [[nodiscard]] Spread drawn_spread(const std::vector<double>& values) const {
    const Spread s = spread_of(values);
    return {y_.at(s.least), y_.at(s.lower), y_.at(s.upper), y_.at(s.largest)};
  }
  /// A line with short ticks at its ends and long ones around the middle half, as of a ruler.
  static void draw_spread(Chart& chart, double x, double half, const Spread& s) {
    constexpr LineLook look{1.5, "none", faint_ink};
    chart.line({x, s.least}, {x, s.largest}, look);
    for (const double y : {s.least, s.largest})
      chart.line({x - half / 2.0, y}, {x + half / 2.0, y}, look);
    for (const double y : {s.lower, s.upper})
      chart.line({x - half, y}, {x + half, y}, look);
  }

  void draw_columns(Chart& chart) const {
    std::vector<Spot> readings;
    std::vector<Spot> apart;
    std::vector<Spot> skipped;
    std::vector<Spot> means;
    const auto join = [](std::vector<Spot>& all, const std::vector<Spot>& more) {
      all.insert(all.end(), more.begin(), more.end());
    };
    for (std::size_t g = 0; g < view_.groups.size(); ++g) {
      for (std::size_t i = 0; i < view_.groups[g].columns.size(); ++i) {
        const PowerColumn& c = view_.groups[g].columns[i];
        const double x = columns_.middles[g][i];
        if (dense_ && !c.readings.empty()) {
          draw_spread(chart, x, std::min(10.0, 0.3 * columns_.room), drawn_spread(c.readings));
        } else {
          join(readings, spots(c.readings, x));
        }
        join(apart, spots(c.apart, x));
        join(skipped, spots(c.skipped, x));
        means.push_back({x, y_.at(c.mean)});
      }
    }
    chart.marks(readings, reading_look);
    chart.marks(skipped, skipped_look);
    chart.marks(apart, apart_look);
    chart.marks(means, setup_look);
  }

  // Levels

  [[nodiscard]] LineLook interval_look() const { return {1.5, usable_ ? "none" : "4 3"}; }
  [[nodiscard]] MarkLook result_look() const { return {MarkShape::disc, usable_, 6.0}; }

  [[nodiscard]] std::size_t first_after() const { return view_.groups.size() - 1; }

  /// The interval that decides, and over it the means before and after as lines and the limit.
  void draw_levels(Chart& chart) const {
    chart.band_up(y_, view_.to_interval.low, view_.to_interval.high, columns_.result, 9.0,
                  interval_look());
    const std::size_t after = first_after();
    const double split = columns_.left_of(after);
    std::size_t first = 0;
    while (view_.groups[first].title == "baseline")
      ++first;
    double end = split;
    if (!view_.siblings) end = columns_.right_of(first);
    const double from = y_.at(view_.from);
    chart.line({columns_.left_of(first), from}, {end, from}, level_look);
    chart.line({end, from}, {frame.right, from}, onward_look);
    chart.line({split, y_.at(view_.limit)}, {frame.right, y_.at(view_.limit)}, limit_look);
    const double to = y_.at(view_.to);
    chart.line({split, to}, {columns_.result, to}, level_look);
    chart.line({columns_.result, to}, {frame.right, to}, {1.0, "none", faint_ink});
    chart.mark({columns_.result, to}, result_look());
    draw_level_words(chart);
  }

  void draw_level_words(Chart& chart) const {
    const std::vector<double> levels{y_.at(view_.from), y_.at(view_.limit), y_.at(view_.to)};
    const double most = chart_width - level_words - 6.0;
    const std::vector<std::string> words{words_.from_level(), words_.limit_level(),
                                         words_.to_level()};
    const std::vector<double> heights =
        spread_apart(levels, level_gap, {frame.top + 6.0, frame.bottom - 6.0});
    for (std::size_t i = 0; i < levels.size(); ++i) {
      chart.line({frame.right, levels[i]}, {level_words - 4.0, heights[i]},
                 {1.0, "none", faint_ink});
      chart.write({level_words, heights[i] + 5.0}, shortened_to(words[i], most, tick_text_size),
                  {"start", tick_text_size});
    }
  }

  [[nodiscard]] bool shots_between() const { return !view_.siblings && view_.groups.size() > 1; }

  [[nodiscard]] double boundary() const {
    return (columns_.right_of(first_after() - 1) + columns_.left_of(first_after())) / 2.0;
  }

  /// Each group stands on a line of its own; between the stages come the shots.
  void draw_ground(Chart& chart) const {
    for (std::size_t g = 0; g < view_.groups.size(); ++g) {
      chart.line({columns_.left_of(g), frame.bottom}, {columns_.right_of(g), frame.bottom}, {3.0});
    }
    if (shots_between()) {
      chart.line({boundary(), frame.top}, {boundary(), frame.bottom + 6.0}, {1.5, "1 4"});
    }
  }

  // Labels

  void collect_labels() {
    for (std::size_t g = 0; g < view_.groups.size(); ++g) {
      const PowerGroup& group = view_.groups[g];
      const std::vector<double>& middles = columns_.middles[g];
      for (std::size_t i = 0; i < middles.size(); ++i)
        numbers_.add(middles[i], group.columns[i].name);
      add_days(group, middles);
      if (group.after && shots_between()) titles_.add(boundary(), "shots");
      titles_.add((middles.front() + middles.back()) / 2.0, group.title);
    }
    for (LabelRow* row : {&numbers_, &days_, &titles_})
      row->place();
  }

  /// A day stands once below its set-ups that stand side by side.
  void add_days(const PowerGroup& group, const std::vector<double>& middles) {
    for (std::size_t i = 0; i < middles.size();) {
      std::size_t k = i;
      while (k + 1 < middles.size() && group.columns[k + 1].date == group.columns[i].date)
        ++k;
      if (!view_.one_day() && !group.columns[i].date.empty()) {
        days_.add((middles[i] + middles[k]) / 2.0, group.columns[i].date);
      }
      i = k + 1;
    }
  }

  void draw_labels(Chart& chart, double y) const {
    chart.write({frame.left - 12.0, y + tick_text_size}, "set-up", {"end", tick_text_size});
    for (const LabelRow* row : {&numbers_, &days_, &titles_}) {
      chart.labels_below(y, row->placed, row->at, row->words);
      y += row->placed.height + 2.0;
    }
  }

  bool usable_;
  PowerView view_;
  PowerWords words_;
  Columns columns_;
  Scale y_;
  bool dense_;
  Legend legend_;
  LabelRow numbers_, days_, titles_;
  Figure figure_;
};

}  // namespace

std::optional<Figure> power_picture(const Judged& judged, const PowerResult& power,
                                    std::string_view suffix) {
  if (!power.estimated() || !power.model) return std::nullopt;
  return PowerPicture(judged, power, suffix).draw();
}

}  // namespace hailwright
