#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "hailwright/core/quantity_text.hpp"
#include "hailwright/report/compose_readings.hpp"
#include "report/chart.hpp"
#include "report/chart_legend.hpp"
#include "report/log_picture_data.hpp"
#include "report/readings_clock.hpp"
#include "report/words.hpp"

namespace hailwright {

namespace {

using detail::Chart;
using detail::CourseEnds;
using detail::DrawnLog;
using detail::Ends;
using detail::Frame;
using detail::LaneStretch;
using detail::Legend;
using detail::LegendEntry;
using detail::LineLook;
using detail::Scale;
using detail::Spot;

// In units of the picture [ours].
constexpr std::size_t most_points = 512;  ///< nearly one and a half units each
// Narrower than the other charts: a log stands in a card of the page, and its words must not
// become small there.
constexpr double log_width = 720.0, right_edge = log_width - 28.0;
constexpr double power_height = 250.0, sun_height = 110.0;
constexpr double lane_height = 16.0;
constexpr std::size_t most_lanes = 4;
constexpr double hatch_step = 9.0, narrowest_gap = 2.5;
constexpr LineLook mean_look{2.0};
constexpr LineLook beside_look{1.5, "7 4"};
constexpr LineLook log_edge_look{1.0, "2 4", detail::faint_ink};

std::string spot_text(Spot at) {
  return detail::svg_number(at.x) + ' ' + detail::svg_number(at.y);
}

/// Neighbouring points without a gap between them.
template <class Value>
std::vector<std::vector<std::size_t>> runs_of(const DrawnLog& course, Value value) {
  std::vector<std::vector<std::size_t>> runs(1);
  for (std::size_t i = 0; i < course.points.size(); ++i) {
    const bool shown = course.points[i].rows > 0 && !std::isnan(value(course.points[i]));
    if (shown) {
      runs.back().push_back(i);
    } else if (course.in_gap(course.at(i)) && !runs.back().empty()) {
      runs.emplace_back();
    }
  }
  if (runs.back().empty()) runs.pop_back();
  return runs;
}

class LogPicture {
public:
  LogPicture(Figure figure, const LogFindings& findings, std::string_view zone)
      : figure_(std::move(figure)), findings_(findings), zone_(zone),
        course_(detail::drawn_log(findings, most_points)),
        lanes_(detail::stretch_lanes(findings, course_)),
        x_(Scale::Kind::linear, {0.0, course_.seconds()}, detail::left_of_axis, right_edge) {
    lay_out();
  }

  Figure draw() {
    figure_.description = description();
    const Legend legend(legend_entries(), 20.0, log_width);
    Chart chart(figure_, below_axis_ + legend.height() + 8.0, log_width);
    draw_time_grid(chart);
    if (const auto ends = detail::both_power_ends(course_)) draw_power(chart, *ends);
    if (const auto ends = detail::irradiance_ends(course_)) draw_irradiance(chart, *ends);
    draw_stretches(chart);
    draw_time_axis(chart);
    legend.draw(chart, below_axis_);
    figure_.svg = chart.finish();
    return figure_;
  }

private:
  // Layout, from above to below: power, stretches, irradiance, time

  void lay_out() {
    double y = 8.0;
    if (course_.has_power() || course_.has_beside()) {
      power_ = {x_.from(), x_.to(), y + detail::above_axis, y + detail::above_axis + power_height};
      frames_.push_back(power_);
      y = power_.bottom;
    }
    if (course_.has_irradiance()) {
      sun_ = {x_.from(), x_.to(), y + detail::above_axis + 14.0,
              y + detail::above_axis + 14.0 + sun_height};
      frames_.push_back(sun_);
      y = sun_.bottom;
    }
    axis_ = y;
    place_stretches(y + 24.0);
    below_axis_ = stretches_end_ + 34.0;
  }

  [[nodiscard]] std::size_t lanes() const {
    std::size_t n = 0;
    for (const LaneStretch& s : lanes_)
      n = std::max(n, std::min(s.lane, most_lanes - 1) + 1);
    return n;
  }

  void place_stretches(double y) {
    stretches_top_ = y;
    stretches_end_ = y;
    if (lanes_.empty()) return;
    std::vector<std::size_t> order(lanes_.size());
    for (std::size_t i = 0; i < order.size(); ++i)
      order[i] = i;
    std::stable_sort(order.begin(), order.end(),
                     [&](std::size_t a, std::size_t b) { return middle(a) < middle(b); });
    for (const std::size_t i : order) {
      label_at_.push_back(middle(i));
      label_words_.push_back(detail::shortened_to(
          detail::stretch_name(findings_, lanes_[i].stretch), 160.0, detail::tick_text_size));
    }
    labels_ = detail::labels_along(label_at_, label_words_, detail::tick_text_size,
                                   {4.0, log_width - 4.0});
    labels_top_ = y + lane_height * static_cast<double>(lanes()) + 2.0;
    stretches_end_ = labels_top_ + labels_.height;
  }

  [[nodiscard]] double middle(std::size_t lane_stretch) const {
    const Ends& s = lanes_[lane_stretch].seconds;
    return (x_.at(s.low) + x_.at(s.high)) / 2.0;
  }

  // Time

  void draw_time_grid(Chart& chart) {
    ticks_ = time_ticks(course_.from_us, course_.to_us(), zone_, 7);
    for (const Frame& frame : frames_) {
      for (const detail::Tick& tick : ticks_) {
        const double x = x_.at(tick.value);
        chart.line({x, frame.top}, {x, frame.bottom}, {1.0, "none", detail::grid_ink});
      }
    }
  }

  void draw_time_axis(Chart& chart) const {
    for (const detail::Tick& tick : ticks_) {
      const double x = x_.at(tick.value);
      chart.line({x, axis_}, {x, axis_ + 5.0});
      const double half = detail::text_units(tick.label, detail::tick_text_size) / 2.0;
      if (x + half > log_width - 2.0) continue;
      chart.write({x, axis_ + 19.0}, tick.label, {"middle", detail::tick_text_size});
    }
    chart.write({(x_.from() + x_.to()) / 2.0, stretches_end_ + 20.0}, time_title(), {"middle"});
  }

  [[nodiscard]] std::string time_title() const {
    const LocalClock from = local_clock(course_.first_us, zone_);
    const LocalClock to = local_clock(course_.last_us, zone_);
    const std::string days =
        from.date == to.date ? from.date : fmt::format("{} to {}", from.date, to.date);
    return fmt::format("local time, {}, {}", days,
                       zone_text(course_.first_us, course_.last_us, zone_));
  }

  // Curves

  /// An axis from zero, where nothing lies below it.
  static Scale scale_of(const CourseEnds& ends, const Frame& frame) {
    const double low = std::min(0.0, ends.least);
    const double high = std::max(ends.most, low + 1e-6);
    return {Scale::Kind::linear,
            {low < 0.0 ? low - 0.04 * (high - low) : 0.0, high + 0.04 * (high - low)},
            frame.bottom,
            frame.top};
  }

  void draw_power(Chart& chart, const CourseEnds& ends) const {
    const Scale y = scale_of(ends, power_);
    chart.axis_left(power_, y, "power in W");
    draw_band(chart, y);
    draw_gaps(chart, power_);
    draw_edges(chart, power_);
    draw_curve(
        chart, y, [](const LogTrace::Point& p) { return p.power_mean; }, mean_look);
    if (course_.has_beside()) {
      draw_curve(
          chart, y, [](const LogTrace::Point& p) { return p.beside_mean; }, beside_look);
    }
    chart.outline(power_);
  }

  void draw_irradiance(Chart& chart, const CourseEnds& ends) const {
    const Scale y = scale_of(ends, sun_);
    chart.axis_left(sun_, y, "irradiance in W/m2");
    draw_gaps(chart, sun_);
    draw_edges(chart, sun_);
    draw_curve(chart, y, [](const LogTrace::Point& p) { return p.irradiance_mean; }, {1.5});
    chart.outline(sun_);
  }

  /// From the least to the most power of each point.
  void draw_band(Chart& chart, const Scale& y) const {
    const double half = course_.step_s / 2.0;
    for (const auto& run :
         runs_of(course_, [](const LogTrace::Point& p) { return p.power_mean; })) {
      std::string path;
      const auto add = [&](double seconds, double value) {
        path += (path.empty() ? 'M' : 'L') + spot_text({x_.clipped(seconds), y.clipped(value)});
      };
      for (const std::size_t i : run) {
        add(course_.at(i) - half, course_.points[i].power_most);
        add(course_.at(i) + half, course_.points[i].power_most);
      }
      std::for_each(run.rbegin(), run.rend(), [&](std::size_t i) {
        add(course_.at(i) + half, course_.points[i].power_least);
        add(course_.at(i) - half, course_.points[i].power_least);
      });
      chart.svg().leaf("path", {{"d", path + 'z'}, {"fill", band_ink}, {"stroke", "none"}});
    }
  }

  template <class Value>
  void draw_curve(Chart& chart, const Scale& y, Value value, const LineLook& look) const {
    std::string path;
    for (const auto& run : runs_of(course_, value)) {
      char move = 'M';
      for (const std::size_t i : run) {
        path += move + spot_text({x_.at(course_.at(i)), y.clipped(value(course_.points[i]))});
        move = 'L';
      }
      if (run.size() == 1) path += "h1";
    }
    chart.svg().leaf("path", {{"d", path},
                              {"fill", "none"},
                              {"stroke", look.ink},
                              {"stroke-width", look.width},
                              {"stroke-dasharray", look.dash},
                              {"stroke-linejoin", "round"}});
  }

  void draw_gaps(Chart& chart, const Frame& frame) const {
    for (const Ends& gap : course_.gaps) {
      Frame box{x_.at(gap.low), x_.at(gap.high), frame.top, frame.bottom};
      if (box.width() < narrowest_gap) {
        box.right = std::min(frame.right, box.left + narrowest_gap);
        box.left = box.right - narrowest_gap;
        chart.box(box, detail::faint_ink, {0.0});
        continue;
      }
      chart.box(box, "#fff", {0.0});
      hatch(chart, box);
    }
  }

  static void hatch(Chart& chart, const Frame& box) {
    std::string path;
    const double reach = box.width() + box.height();
    for (int k = 1; k * hatch_step < reach; ++k) {
      const double d = k * hatch_step;
      const auto line = detail::clipped(
          {{box.left + d - box.height(), box.bottom}, {box.left + d, box.top}}, box);
      if (line) path += 'M' + spot_text(line->from) + 'L' + spot_text(line->to);
    }
    if (path.empty()) return;
    chart.svg().leaf(
        "path",
        {{"d", path}, {"fill", "none"}, {"stroke", detail::faint_ink}, {"stroke-width", 1.0}});
  }

  // Stretches

  /// Where stretches begin and end, as far as there is room between the lines.
  void draw_edges(Chart& chart, const Frame& frame) const {
    double last = -10.0;
    for (const LaneStretch& s : lanes_) {
      for (const double seconds : {s.seconds.low, s.seconds.high}) {
        const double x = x_.at(seconds);
        if (x < last + 3.0) continue;
        chart.line({x, frame.top}, {x, frame.bottom}, log_edge_look);
        last = x;
      }
    }
  }

  void draw_stretches(Chart& chart) const {
    if (lanes_.empty()) return;
    for (const LaneStretch& s : lanes_) {
      const double y = stretches_top_ + 8.0 +
                       lane_height * static_cast<double>(std::min(s.lane, most_lanes - 1));
      const double left = x_.at(s.seconds.low);
      const double right = std::max(left + 1.0, x_.at(s.seconds.high));
      chart.line({left, y}, {right, y}, {2.0});
      chart.line({left, y - 5.0}, {left, y + 5.0}, {1.5});
      chart.line({right, y - 5.0}, {right, y + 5.0}, {1.5});
    }
    chart.labels_below(labels_top_, labels_, label_at_, label_words_);
  }

  // Words

  [[nodiscard]] std::vector<LegendEntry> legend_entries() const {
    std::vector<LegendEntry> entries;
    if (course_.has_power()) {
      entries.push_back({sign_of_power, fmt::format("power: mean, and least to most, of {} each",
                                                    duration_text(course_.step_s))});
    }
    if (course_.has_beside()) {
      entries.push_back({[](Chart& c, Spot at) {
                           c.line({at.x - 14.0, at.y}, {at.x + 14.0, at.y}, beside_look);
                         },
                         "power of the second panel, mean"});
    }
    if (!course_.gaps.empty()) {
      entries.push_back({sign_of_gap, "no rows: a gap, which the energy leaves out"});
    }
    if (!lanes_.empty()) {
      entries.push_back({[](Chart& c, Spot at) {
                           c.line({at.x - 12.0, at.y}, {at.x + 12.0, at.y}, {2.0});
                           for (const double x : {at.x - 12.0, at.x + 12.0})
                             c.line({x, at.y - 5.0}, {x, at.y + 5.0}, {1.5});
                         },
                         stretch_words()});
    }
    return entries;
  }

  [[nodiscard]] std::string stretch_words() const {
    return labels_.every == 1
               ? "a stretch that was measured by itself"
               : fmt::format(
                     "a stretch that was measured by itself; the name of one in {} is shown",
                     labels_.every);
  }

  static void sign_of_power(Chart& chart, Spot at) {
    chart.box({at.x - 14.0, at.x + 14.0, at.y - 7.0, at.y + 7.0}, band_ink, {0.0});
    chart.line({at.x - 14.0, at.y}, {at.x + 14.0, at.y}, mean_look);
  }

  static void sign_of_gap(Chart& chart, Spot at) {
    const Frame box{at.x - 14.0, at.x + 14.0, at.y - 7.0, at.y + 7.0};
    chart.box(box, "#fff", {0.0});
    hatch(chart, box);
  }

  [[nodiscard]] std::string description() const {
    std::string text =
        fmt::format("From {} ({}).", span_text(course_.first_us, course_.last_us, zone_),
                    zone_text(course_.first_us, course_.last_us, zone_));
    text += ends_description();
    if (findings_.whole.steady) text += " Rows that the steady rule removed are drawn, too.";
    if (findings_.whole.gaps > 0) {
      text += fmt::format(" {} left out, {} together.",
                          counted(static_cast<int>(findings_.whole.gaps), "gap"),
                          duration_text(findings_.whole.in_gaps_s));
    }
    return text + stretches_description();
  }

  /// Of the trace as it came, whose points are shorter than those of the picture.
  [[nodiscard]] std::string ends_description() const {
    const DrawnLog finest = detail::drawn_log(findings_, findings_.trace.points.size());
    const std::string means = fmt::format("in means of {}", duration_text(finest.step_s));
    std::string text;
    if (const auto p = detail::power_ends(finest)) {
      text +=
          fmt::format(" Power from {} to {} W.", significant(p->least, 3), significant(p->most, 3));
    }
    if (const auto p = detail::beside_ends(finest)) {
      text += fmt::format(" Power of the second panel, {}, from {} to {} W.", means,
                          significant(p->least, 3), significant(p->most, 3));
    }
    if (const auto g = detail::irradiance_ends(finest)) {
      text += fmt::format(" Irradiance, {}, from {} to {} W/m2.", means, fixed(g->least, 0),
                          fixed(g->most, 0));
    }
    return text;
  }

  [[nodiscard]] std::string stretches_description() const {
    constexpr std::size_t most_named = 30;
    if (lanes_.empty()) return {};
    std::vector<std::string> named;
    for (std::size_t i = 0; i < std::min(lanes_.size(), most_named); ++i) {
      const LogStretch& s = findings_.stretches[lanes_[i].stretch];
      named.push_back(fmt::format("{} ({})", detail::stretch_name(findings_, lanes_[i].stretch),
                                  span_text(s.from_us, s.to_us, zone_)));
    }
    if (lanes_.size() > most_named)
      named.push_back(fmt::format("{} more", lanes_.size() - most_named));
    return fmt::format(" Stretches: {}.", enumerate(named));
  }

  static constexpr const char* band_ink = "#c4c4c4";

  Figure figure_;
  const LogFindings& findings_;
  std::string zone_;
  DrawnLog course_;
  std::vector<LaneStretch> lanes_;
  Scale x_;
  std::vector<Frame> frames_;
  Frame power_, sun_;
  double axis_ = 0.0, stretches_top_ = 0.0, labels_top_ = 0.0, stretches_end_ = 0.0;
  double below_axis_ = 0.0;
  detail::AxisLabels labels_;
  std::vector<double> label_at_;
  std::vector<std::string> label_words_;
  std::vector<detail::Tick> ticks_;
};

}  // namespace

Figure log_picture(const std::string& id, const std::string& title, const LogFindings& findings,
                   std::string_view zone) {
  Figure figure;
  figure.id = id;
  figure.title = title;
  if (findings.trace.points.empty() || !(findings.trace.step_s > 0.0)) {
    figure.description = "No rows: nothing to draw.";
    return figure;
  }
  return LogPicture(std::move(figure), findings, zone).draw();
}

}  // namespace hailwright
