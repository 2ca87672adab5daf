#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cmath>

#include "hailwright/core/quantity_text.hpp"
#include "hailwright/report/compose_readings.hpp"
#include "report/log_picture_data.hpp"
#include "report/readings_clock.hpp"
#include "report/text_layout.hpp"

namespace hailwright {

namespace {

using detail::blanks;
using detail::display_width;
using detail::DrawnLog;
using detail::LaneStretch;

constexpr int most_columns = 60;
constexpr std::size_t most_sketch_lanes = 3;
constexpr int power_rows = 3, sun_rows = 2;

/// Lower blocks of so many eighths. Source: Unicode Standard, chart U+2580 "Block Elements".
constexpr std::array<const char*, 9> eighths{" ", "▁", "▂", "▃", "▄", "▅", "▆", "▇", "█"};

constexpr const char* gap_mark = "·";

/// A column of characters for one strip, from above to below.
class Strip {
public:
  Strip(int rows, double most) : most_(most), lines_(static_cast<std::size_t>(rows)) {}

  /// A gap shows a point at the foot.
  void add_gap() {
    for (std::size_t row = 0; row < lines_.size(); ++row)
      lines_[row] += row + 1 == lines_.size() ? gap_mark : " ";
  }
  /// What was logged shows at least the lowest block; what was not measured, a blank.
  void add(double value) {
    const int total = static_cast<int>(lines_.size()) * 8;
    int height = 0;
    if (!std::isnan(value)) {
      const double share = most_ > 0.0 ? std::clamp(value / most_, 0.0, 1.0) : 0.0;
      height = std::max(1, static_cast<int>(std::lround(share * total)));
    }
    for (std::size_t row = 0; row < lines_.size(); ++row) {
      const int below = static_cast<int>(lines_.size() - 1 - row) * 8;
      lines_[row] += eighths.at(static_cast<std::size_t>(std::clamp(height - below, 0, 8)));
    }
  }
  [[nodiscard]] const std::vector<std::string>& lines() const { return lines_; }

private:
  double most_;
  std::vector<std::string> lines_;
};

std::string right_aligned(const std::string& text, int width) {
  return blanks(width - display_width(text)) + text;
}

std::string without_end(std::string line) {
  line.erase(line.find_last_not_of(' ') + 1);
  return line;
}

class LogSketch {
public:
  LogSketch(const LogFindings& findings, std::string_view zone, int width)
      : findings_(findings), zone_(zone), width_(width) {
    // A first look at the whole for the labels: what is left of them is for the course.
    const DrawnLog all = detail::drawn_log(findings, 1);
    if (const auto p = detail::power_ends(all)) most_power_ = p->most;
    most_sun_ = most_irradiance();
    const std::string power = power_label();
    const std::string sun = sun_label();
    label_ = std::max(display_width(power), display_width(sun)) + 1;
    columns_ = std::min(most_columns, width - label_);
    if (columns_ > 0) course_ = detail::drawn_log(findings, static_cast<std::size_t>(columns_));
  }

  std::vector<std::string> draw() {
    if (columns_ < 10 || !(course_.has_power() || course_.has_irradiance())) return {};
    if (course_.has_power()) {
      lines_.push_back(blanks(label_) + "power");
      strip(power_rows, power_label(), most_power_,
            [](const LogTrace::Point& p) { return p.power_mean; });
    }
    if (course_.has_irradiance()) {
      lines_.push_back(blanks(label_) + "irradiance");
      strip(sun_rows, sun_label(), most_sun_,
            [](const LogTrace::Point& p) { return p.irradiance_mean; });
    }
    stretches();
    times();
    if (gap_shown_) lines_.push_back(blanks(label_) + gap_mark + " no rows");
    return std::move(lines_);
  }

private:
  [[nodiscard]] double most_irradiance() const {
    double most = 0.0;
    for (const LogTrace::Point& p : findings_.trace.points) {
      if (p.rows > 0 && !std::isnan(p.irradiance_mean)) most = std::max(most, p.irradiance_mean);
    }
    return most;
  }

  [[nodiscard]] std::string power_label() const { return significant(most_power_, 3) + " W"; }
  [[nodiscard]] std::string sun_label() const { return fixed(most_sun_, 0) + " W/m2"; }

  [[nodiscard]] int columns() const { return static_cast<int>(course_.points.size()); }

  template <class Value>
  void strip(int rows, const std::string& label, double most, Value value) {
    Strip strip(rows, most);
    double last = std::nan("");
    for (std::size_t i = 0; i < course_.points.size(); ++i) {
      const LogTrace::Point& p = course_.points[i];
      // Between rows that are no gap apart the course goes on.
      const bool bridged = p.rows == 0 && !course_.in_gap(course_.at(i));
      last = p.rows > 0 ? value(p) : (bridged ? last : std::nan(""));
      if (p.rows == 0 && !bridged) {
        strip.add_gap();
        gap_shown_ = true;
      } else {
        strip.add(last);
      }
    }
    for (std::size_t row = 0; row < strip.lines().size(); ++row) {
      const std::string beside = row == 0 ? label : (row + 1 == strip.lines().size() ? "0" : "");
      lines_.push_back(without_end(right_aligned(beside, label_ - 1) + ' ' + strip.lines()[row]));
    }
  }

  // Stretches

  [[nodiscard]] int column_of(double seconds) const {
    return std::clamp(static_cast<int>(seconds / course_.step_s), 0, columns() - 1);
  }

  /// "├before 1┤" as wide as the stretch; its number where there is no room for the name.
  [[nodiscard]] std::string mark(std::size_t stretch, int cells) const {
    const std::string number = std::to_string(stretch + 1);
    // Two numbers side by side would read as one.
    if (cells == 1) return "│";
    if (cells == 2) return number.size() == 1 ? number + "┤" : "├┤";
    const int room = cells - 2;
    std::string words = detail::one_line(detail::stretch_name(findings_, stretch));
    if (display_width(words) > room) words = number;
    if (display_width(words) > room) words.clear();
    const int spare = room - display_width(words);
    std::string line = "├";
    for (int i = 0; i < spare / 2; ++i)
      line += "─";
    line += words;
    for (int i = spare / 2; i < spare; ++i)
      line += "─";
    return line + "┤";
  }

  void stretches() {
    struct Lane {
      std::string line;
      int used = 0;
    };
    std::vector<Lane> lanes;
    std::size_t left_out = 0;
    for (const LaneStretch& s : detail::stretch_lanes(findings_, course_)) {
      const int from = column_of(s.seconds.low);
      const int to = std::max(from, column_of(s.seconds.high));
      const auto lane = std::find_if(lanes.begin(), lanes.end(),
                                     [from](const Lane& l) { return l.used <= from; });
      if (lane == lanes.end() && lanes.size() == most_sketch_lanes) {
        ++left_out;
        continue;
      }
      Lane& on = lane == lanes.end() ? lanes.emplace_back() : *lane;
      on.line += blanks(from - on.used) + mark(s.stretch, to - from + 1);
      on.used = to + 1;
    }
    for (const Lane& lane : lanes)
      lines_.push_back(blanks(label_) + lane.line);
    if (left_out > 0) {
      lines_.push_back(blanks(label_) + fmt::format("and {} more, too near to be shown", left_out));
    }
  }

  // Times

  /// The beginning at the left, the end at the right, round times between where they have room.
  void times() {
    const int room = width_ - label_;
    const LocalClock from = local_clock(course_.first_us, zone_);
    const LocalClock to = local_clock(course_.last_us, zone_);
    const bool days = from.date != to.date;
    const auto words = [days](const LocalClock& c) {
      return days ? c.day() + ' ' + c.minute() : c.minute();
    };
    const std::string first = words(from);
    const std::string last = words(to);
    std::string line = first;
    const int end = std::max(display_width(first) + 2, columns() - display_width(last));
    for (const detail::Tick& tick : time_ticks(course_.from_us, course_.to_us(), zone_, 6)) {
      const int at = column_of(tick.value) - display_width(tick.label) / 2;
      if (at < display_width(line) + 2 || at + display_width(tick.label) + 2 > end) continue;
      line += blanks(at - display_width(line)) + tick.label;
    }
    line += blanks(end - display_width(line)) + last;
    if (display_width(line) > room) line = first;
    lines_.push_back(blanks(label_) + line);
  }

  const LogFindings& findings_;
  std::string_view zone_;
  int width_;
  double most_power_ = 0.0, most_sun_ = 0.0;
  int label_ = 0, columns_ = 0;
  bool gap_shown_ = false;
  DrawnLog course_;
  std::vector<std::string> lines_;
};

}  // namespace

std::vector<std::string> log_sketch(const LogFindings& findings, std::string_view zone, int width) {
  if (findings.trace.points.empty() || !(findings.trace.step_s > 0.0)) return {};
  return LogSketch(findings, zone, width).draw();
}

}  // namespace hailwright
