#include "report/log_picture_data.hpp"

#include <algorithm>
#include <cmath>
#include <limits>

namespace hailwright::detail {

namespace {

constexpr double nan = std::numeric_limits<double>::quiet_NaN();

/// A mean over points, each by its rows; points where it is blank do not count.
class MeanOfPoints {
public:
  void add(double mean, std::int64_t rows) {
    if (std::isnan(mean)) return;
    sum_ += mean * static_cast<double>(rows);
    rows_ += rows;
  }
  [[nodiscard]] double mean() const { return rows_ == 0 ? nan : sum_ / static_cast<double>(rows_); }

private:
  double sum_ = 0.0;
  std::int64_t rows_ = 0;
};

LogTrace::Point together(const std::vector<LogTrace::Point>& points, std::size_t begin,
                         std::size_t end) {
  LogTrace::Point all{0, nan, nan, nan, nan, nan};
  MeanOfPoints power;
  MeanOfPoints irradiance;
  MeanOfPoints beside;
  for (std::size_t i = begin; i < end; ++i) {
    const LogTrace::Point& p = points[i];
    if (p.rows == 0) continue;
    all.rows += p.rows;
    // Of a number and NaN these give the number.
    all.power_least = std::fmin(all.power_least, p.power_least);
    all.power_most = std::fmax(all.power_most, p.power_most);
    power.add(p.power_mean, p.rows);
    irradiance.add(p.irradiance_mean, p.rows);
    beside.add(p.beside_mean, p.rows);
  }
  all.power_mean = power.mean();
  all.irradiance_mean = irradiance.mean();
  all.beside_mean = beside.mean();
  return all;
}

/// In order, those that touch as one.
std::vector<Ends> joined(std::vector<Ends> all) {
  std::sort(all.begin(), all.end(), [](const Ends& a, const Ends& b) { return a.low < b.low; });
  std::vector<Ends> out;
  for (const Ends& e : all) {
    if (!out.empty() && e.low <= out.back().high) {
      out.back().high = std::max(out.back().high, e.high);
    } else {
      out.push_back(e);
    }
  }
  return out;
}

void add_empty_runs(std::vector<Ends>& gaps, const LogTrace& trace, double shortest_s) {
  for (std::size_t i = 0; i < trace.points.size();) {
    std::size_t k = i;
    while (k < trace.points.size() && trace.points[k].rows == 0)
      ++k;
    const double from = trace.step_s * static_cast<double>(i);
    const double to = trace.step_s * static_cast<double>(k);
    if (k > i && to - from >= shortest_s) gaps.push_back({from, to});
    i = std::max(k, i + 1);
  }
}

std::vector<Ends> gaps_of(const LogFindings& findings, const DrawnLog& course) {
  std::vector<Ends> gaps;
  for (const LogGap& g : findings.whole.longest_gaps)
    gaps.push_back({course.since_start(g.from_us), course.since_start(g.to_us)});
  if (findings.whole.gaps > static_cast<std::int64_t>(gaps.size())) {
    add_empty_runs(gaps, findings.trace,
                   std::max(5.0 * findings.usual_step_s, findings.trace.step_s));
  }
  return joined(std::move(gaps));
}

std::optional<CourseEnds> ends_over(const DrawnLog& course, double (*least)(const LogTrace::Point&),
                                    double (*most)(const LogTrace::Point&)) {
  std::optional<CourseEnds> ends;
  for (const LogTrace::Point& p : course.points) {
    if (p.rows == 0 || std::isnan(least(p)) || std::isnan(most(p))) continue;
    if (!ends) ends = CourseEnds{least(p), most(p)};
    ends->least = std::min(ends->least, least(p));
    ends->most = std::max(ends->most, most(p));
  }
  return ends;
}

}  // namespace

std::int64_t DrawnLog::to_us() const {
  return from_us + std::llround(seconds() * 1e6);
}

double DrawnLog::since_start(std::int64_t us) const {
  return std::clamp(static_cast<double>(us - from_us) / 1e6, 0.0, seconds());
}

bool DrawnLog::has_power() const {
  return power_ends(*this).has_value();
}

bool DrawnLog::has_irradiance() const {
  return irradiance_ends(*this).has_value();
}

bool DrawnLog::has_beside() const {
  return beside_ends(*this).has_value();
}

bool DrawnLog::in_gap(double seconds) const {
  return std::any_of(gaps.begin(), gaps.end(),
                     [seconds](const Ends& gap) { return gap.holds(seconds); });
}

DrawnLog drawn_log(const LogFindings& findings, std::size_t most_points) {
  const LogTrace& trace = findings.trace;
  const std::size_t n = trace.points.size();
  const std::size_t each = std::max<std::size_t>(1, (n + most_points - 1) / most_points);
  DrawnLog course;
  course.from_us = trace.from_us;
  course.step_s = trace.step_s * static_cast<double>(each);
  for (std::size_t i = 0; i < n; i += each)
    course.points.push_back(together(trace.points, i, std::min(n, i + each)));
  const bool known = findings.whole.rows > 0;
  course.first_us = known ? findings.whole.from_us : course.from_us;
  course.last_us = known ? findings.whole.to_us : course.to_us();
  course.gaps = gaps_of(findings, course);
  return course;
}

std::string stretch_name(const LogFindings& findings, std::size_t stretch) {
  const std::string& name = findings.stretches[stretch].name;
  return name.empty() ? std::to_string(stretch + 1) : name;
}

std::vector<LaneStretch> stretch_lanes(const LogFindings& findings, const DrawnLog& course) {
  std::vector<LaneStretch> all;
  for (std::size_t i = 0; i < findings.stretches.size(); ++i) {
    const LogStretch& s = findings.stretches[i];
    if (s.rows == 0) continue;
    all.push_back({i, 0, {course.since_start(s.from_us), course.since_start(s.to_us)}});
  }
  std::stable_sort(all.begin(), all.end(), [](const LaneStretch& a, const LaneStretch& b) {
    return a.seconds.low < b.seconds.low;
  });
  std::vector<double> busy_until;
  for (LaneStretch& s : all) {
    while (s.lane < busy_until.size() && s.seconds.low < busy_until[s.lane])
      ++s.lane;
    if (s.lane == busy_until.size()) busy_until.push_back(0.0);
    busy_until[s.lane] = s.seconds.high;
  }
  return all;
}

std::optional<CourseEnds> power_ends(const DrawnLog& course) {
  return ends_over(
      course, [](const LogTrace::Point& p) { return p.power_least; },
      [](const LogTrace::Point& p) { return p.power_most; });
}

std::optional<CourseEnds> beside_ends(const DrawnLog& course) {
  const auto mean = [](const LogTrace::Point& p) { return p.beside_mean; };
  return ends_over(course, mean, mean);
}

std::optional<CourseEnds> both_power_ends(const DrawnLog& course) {
  const auto first = power_ends(course);
  const auto second = beside_ends(course);
  if (!first || !second) return first ? first : second;
  return CourseEnds{std::min(first->least, second->least), std::max(first->most, second->most)};
}

std::optional<CourseEnds> irradiance_ends(const DrawnLog& course) {
  const auto mean = [](const LogTrace::Point& p) { return p.irradiance_mean; };
  return ends_over(course, mean, mean);
}

}  // namespace hailwright::detail
