#pragma once

#include <cstddef>
#include <cstdint>
#include <optional>
#include <string>
#include <vector>

#include "hailwright/logs/log_analysis.hpp"
#include "report/chart_scale.hpp"

namespace hailwright::detail {

/// The course of a log as pictures show it. Seconds count from the first point.
struct DrawnLog {
  std::int64_t from_us = 0;
  double step_s = 0.0;
  /// Of the log's first and last row; the points may reach a little beyond.
  std::int64_t first_us = 0, last_us = 0;
  std::vector<LogTrace::Point> points;
  std::vector<Ends> gaps;  ///< what the energy does not bridge, in order, none touching

  [[nodiscard]] double seconds() const { return step_s * static_cast<double>(points.size()); }
  [[nodiscard]] std::int64_t to_us() const;
  /// The middle of a point.
  [[nodiscard]] double at(std::size_t point) const {
    return step_s * (static_cast<double>(point) + 0.5);
  }
  [[nodiscard]] double since_start(std::int64_t us) const;
  [[nodiscard]] bool has_power() const;
  [[nodiscard]] bool has_irradiance() const;
  [[nodiscard]] bool has_beside() const;
  [[nodiscard]] bool in_gap(double seconds) const;
};

/// The course in at most so many points: neighbours together, their means by rows.
/// The findings name ten gaps at most: where there are more, what has no rows over five usual steps
/// counts as one.
DrawnLog drawn_log(const LogFindings& findings, std::size_t most_points);

/// A stretch on a line of its own: no two of a lane overlap.
struct LaneStretch {
  std::size_t stretch = 0;  ///< index in the findings
  std::size_t lane = 0;
  Ends seconds;
};
/// All stretches with rows in order of their beginning, each in the first lane with room.
std::vector<LaneStretch> stretch_lanes(const LogFindings& findings, const DrawnLog& course);

/// The name, or its number where it has none: "3".
std::string stretch_name(const LogFindings& findings, std::size_t stretch);

/// The least and the largest value that points show.
struct CourseEnds {
  double least = 0.0, most = 0.0;
};
/// Of the rows of the first panel.
std::optional<CourseEnds> power_ends(const DrawnLog& course);
/// Of the means of the second panel.
std::optional<CourseEnds> beside_ends(const DrawnLog& course);
/// What an axis of power must hold: both panels.
std::optional<CourseEnds> both_power_ends(const DrawnLog& course);
/// Of the means of the points.
std::optional<CourseEnds> irradiance_ends(const DrawnLog& course);

}  // namespace hailwright::detail
