#include "evaluate/trend_fit.hpp"

#include <cmath>
#include <numeric>

#include "evaluate/setup_drift.hpp"
#include "hailwright/core/calendar.hpp"
#include "hailwright/metrology/statistics.hpp"

namespace hailwright {

namespace {

/// Values and days of the set-ups of both stages, one after the other.
struct Points {
  std::vector<double> value, day;
  std::vector<std::size_t> stage;
};

bool add_points(Points& points, const Test& test, const std::vector<UnitSetup>& setups,
                std::size_t stage) {
  for (const UnitSetup& unit : setups) {
    const auto day = middle_day(test, unit);
    if (!day) return false;
    points.value.push_back(unit.value);
    points.day.push_back(*day);
    points.stage.push_back(stage);
  }
  return setups.size() >= trend_setups;
}

double weighed(const std::vector<double>& weights, const std::vector<double>& values) {
  return std::inner_product(weights.begin(), weights.end(), values.begin(), 0.0);
}

double root_of_squares(const std::vector<double>& values) {
  return std::sqrt(weighed(values, values));
}

}  // namespace

std::optional<double> middle_day(const Test& test, const UnitSetup& unit) {
  const auto day = day_number(test.record.setups[unit.setup].date);
  std::vector<double> minutes;
  for (const WeighedReading& r : unit.readings) {
    if (r.reading->minute) minutes.push_back(*r.reading->minute);
  }
  if (!day || minutes.empty()) return std::nullopt;
  constexpr double minutes_in_day = 24.0 * 60.0;
  return static_cast<double>(*day) + mean(minutes) / minutes_in_day;
}

std::optional<TrendFit> fit_trend(const Test& test, const std::vector<UnitSetup>& from,
                                  const std::vector<UnitSetup>& to) {
  Points points;
  if (!add_points(points, test, from, 0) || !add_points(points, test, to, 1)) return std::nullopt;
  // From the first day on: a date is a large number, and its square would eat the digits.
  const double first = points.day.front();
  for (double& day : points.day)
    day -= first;
  const auto line = means_beside_line(points.stage, points.day);
  if (!line) return std::nullopt;
  const std::vector<double>& before = line->mean[0];
  const std::vector<double>& after = line->mean[1];
  TrendFit fit;
  fit.per_day = weighed(line->slope, points.value);
  fit.line_share = root_of_squares(line->slope);
  std::vector<double> step;
  std::vector<double> rest;
  for (std::size_t i = 0; i < points.value.size(); ++i) {
    step.push_back(after[i] - before[i]);
    rest.push_back(points.value[i] - fit.per_day * points.day[i]);
    const bool later = points.stage[i] == 1;
    // The weights of lambda, shared out to the stages: each stage's sum to 1.
    (later ? fit.to : fit.from).push_back(later ? step.back() : -step.back());
    (later ? fit.to_rest : fit.from_rest).push_back(rest.back());
  }
  fit.step_share = root_of_squares(step);
  fit.dof = static_cast<double>(points.value.size()) - 3.0;
  PooledScatter about_line;
  about_line.add(fit.from_rest);
  about_line.add(fit.to_rest);
  fit.sd = std::sqrt(about_line.squares / fit.dof);
  return fit;
}

}  // namespace hailwright
