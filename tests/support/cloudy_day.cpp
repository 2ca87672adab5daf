#include "support/cloudy_day.hpp"

#include <algorithm>
#include <cmath>
#include <numbers>
#include <vector>

#include "hailwright/metrology/random.hpp"

namespace hailwright::testing {

namespace {

constexpr double day_s = 12.0 * 3600.0;
constexpr double noon_w_per_m2 = 950.0;
constexpr double peak_w = 100.0;  ///< of the first panel at 1000 W/m2 and 25 degC

/// What clouds let through over the day: straight lines between these points.
class Sky {
public:
  Sky(const CloudyDay& day, RandomStream& random) {
    points_.push_back({-3600.0, 1.0});
    const auto lasting = [&](double mean_s) { return -mean_s * std::log(random.uniform()); };
    double at_s = day.clouds ? -3600.0 + lasting(180.0) : day_s + 3600.0;
    while (at_s < day_s + 3600.0) {
      const double shade = 0.2 + 0.5 * random.uniform();
      turn(at_s, shade, edge(day, random));
      at_s = points_.back().at_s + lasting(90.0);
      turn(at_s, 1.0, edge(day, random));
      at_s = points_.back().at_s + lasting(180.0);
    }
    points_.push_back({day_s + 7200.0, points_.back().share});
  }

  [[nodiscard]] double through(double at_s) const {
    const auto after = std::upper_bound(points_.begin(), points_.end(), at_s,
                                        [](double s, const Point& p) { return s < p.at_s; });
    const Point& to = *after;
    const Point& from = *(after - 1);
    return from.share + (to.share - from.share) * (at_s - from.at_s) / (to.at_s - from.at_s);
  }

private:
  struct Point {
    double at_s, share;
  };
  static double edge(const CloudyDay& day, RandomStream& random) {
    return day.edge_least_s + (day.edge_most_s - day.edge_least_s) * random.uniform();
  }
  void turn(double at_s, double share, double edge_s) {
    points_.push_back({at_s, points_.back().share});
    points_.push_back({at_s + edge_s, share});
  }

  std::vector<Point> points_;
};

double irradiance_at(const Sky& sky, double at_s) {
  return noon_w_per_m2 * std::max(0.0, std::sin(std::numbers::pi * at_s / day_s)) *
         sky.through(at_s);
}

double power_at(const Sky& sky, double at_s) {
  return peak_w * irradiance_at(sky, at_s) / 1000.0;
}

double metered(double power_w, double gain, const CloudyDay& day, RandomStream& random) {
  const double shown =
      gain * power_w * (1.0 + day.noise * random.normal()) + day.noise_w * random.normal();
  return std::round(shown / day.resolution_w) * day.resolution_w;
}

void add_row(LogBlock& block, double stamp_s, double power_w) {
  block.time_us.push_back(morning_us + std::llround(stamp_s * 1e6));
  block.line.push_back(static_cast<std::uint32_t>(block.line.size()));
  block.values[index_of(LogRole::power)].push_back(power_w);
  block.values[index_of(LogRole::temperature)].push_back(318.15);
}

}  // namespace

TwoLogs two_logs(const CloudyDay& day) {
  RandomStream clouds(day.seed, 0), first_noise(day.seed, 1), second_noise(day.seed, 2);
  const Sky sky(day, clouds);
  const double from_s = day_s / 2.0 - day.hours * 1800.0;
  const auto rows = static_cast<std::size_t>(day.hours * 3600.0 / day.step_s);
  TwoLogs logs;
  logs.first.first_line = logs.second.first_line = 2;
  logs.first.begins_file = logs.second.begins_file = true;
  for (std::size_t row = 0; row < rows; ++row) {
    const double stamp_s = from_s + static_cast<double>(row) * day.step_s;
    add_row(logs.first, stamp_s, metered(power_at(sky, stamp_s), day.gain_first, day, first_noise));
    logs.first.values[index_of(LogRole::irradiance)].push_back(irradiance_at(sky, stamp_s));
    const double own_s = stamp_s + day.phase_s;
    add_row(logs.second, own_s,
            metered(day.ratio * power_at(sky, own_s + day.offset_s), day.gain_second, day,
                    second_noise));
  }
  return logs;
}

}  // namespace hailwright::testing
