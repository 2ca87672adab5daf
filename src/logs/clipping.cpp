#include "logs/clipping.hpp"

#include <algorithm>
#include <cmath>

#include "hailwright/metrology/statistics.hpp"
#include "logs/row_checks.hpp"

namespace hailwright::detail {

namespace {

constexpr std::int64_t window_us = 10'000'000;
constexpr double steady_window = 0.05;
constexpr double bin_wpm2 = 10.0;
constexpr std::int64_t fewest_windows = 3;
constexpr std::size_t fewest_bins = 3;
constexpr double rise = 1.10;        ///< of irradiance, M9
constexpr double flat = 0.01;        ///< of power
constexpr double least_slope = 0.5;  ///< M9
constexpr double below = 2.0 / 3.0;

/// Means of one bin.
struct Point {
  double irradiance_wpm2 = 0.0, power_w = 0.0;
  std::int64_t rows = 0;
};

struct Run {
  std::size_t begin = 0, end = 0;  ///< none: empty
};

/// The widest run over which power stays flat while irradiance rises.
Run widest_flat_run(const std::vector<Point>& points) {
  Run widest;
  double widest_rise = 0.0;
  for (std::size_t begin = 0; begin < points.size(); ++begin) {
    double least = points[begin].power_w;
    double most = least;
    for (std::size_t i = begin + 1; i < points.size(); ++i) {
      // Bins that nobody visited may hide anything: no further than one tenth.
      if (points[i].irradiance_wpm2 > rise * points[i - 1].irradiance_wpm2) break;
      least = std::min(least, points[i].power_w);
      most = std::max(most, points[i].power_w);
      if (most - least > flat * (most + least) / 2.0) break;
      const double rises = points[i].irradiance_wpm2 / points[begin].irradiance_wpm2;
      if (i - begin + 1 >= fewest_bins && rises >= rise && rises > widest_rise) {
        widest = {begin, i + 1};
        widest_rise = rises;
      }
    }
  }
  return widest;
}

bool rises_below(const std::vector<Point>& points, std::size_t begin) {
  std::vector<double> ln_irradiance;
  std::vector<double> ln_power;
  for (std::size_t i = 0; i < begin; ++i) {
    if (points[i].irradiance_wpm2 < below * points[begin].irradiance_wpm2) continue;
    ln_irradiance.push_back(std::log(points[i].irradiance_wpm2));
    ln_power.push_back(std::log(points[i].power_w));
  }
  if (ln_irradiance.size() < fewest_bins) return false;
  if (ln_irradiance.back() - ln_irradiance.front() < std::log(rise)) return false;
  return slope(ln_irradiance, ln_power).value_or(0.0) >= least_slope;
}

LogClipping clipping_of(const std::vector<Point>& points, const Run& run) {
  double sum_w = 0.0;
  LogClipping found;
  for (std::size_t i = run.begin; i < run.end; ++i) {
    sum_w += points[i].power_w * static_cast<double>(points[i].rows);
    found.rows += points[i].rows;
  }
  found.level = Power::from_si(sum_w / static_cast<double>(found.rows));
  found.from = Irradiance::from_si(points[run.begin].irradiance_wpm2);
  found.to = Irradiance::from_si(points[run.end - 1].irradiance_wpm2);
  return found;
}

}  // namespace

ClippingSearch::ClippingSearch(Power load_on) : load_on_w_(load_on.si()), windows_(window_us) {}

void ClippingSearch::take(const std::vector<std::int64_t>& time_us,
                          const std::vector<double>& power_w,
                          const std::vector<double>& irradiance_wpm2, std::size_t begin,
                          std::size_t end) {
  windows_.go_through(
      time_us, begin, end, [&] { close(); },
      [&](std::size_t from, std::size_t to) {
        rows_ += static_cast<std::int64_t>(to - from);
        power_.add(power_w, from, to);
        irradiance_.add(irradiance_wpm2, from, to);
      });
}

void ClippingSearch::close() {
  const auto n = static_cast<double>(rows_);
  const bool whole = power_.count == rows_ && irradiance_.count == rows_ && rows_ > 0;
  const bool counts = whole && power_.least >= load_on_w_ && irradiance_.sum > 0.0 &&
                      (irradiance_.most - irradiance_.least) * n <= steady_window * irradiance_.sum;
  if (counts) {
    constexpr double last_bin = bins - 1;
    const double place = irradiance_.sum / (n * bin_wpm2);
    Bin& bin = bins_[static_cast<std::size_t>(std::min(place, last_bin))];
    ++bin.windows;
    bin.rows += rows_;
    bin.power_w += power_.sum;
    bin.irradiance_wpm2 += irradiance_.sum;
  }
  rows_ = 0;
  power_ = {};
  irradiance_ = {};
}

std::optional<LogClipping> ClippingSearch::finish() {
  close();
  std::vector<Point> points;
  for (const Bin& bin : bins_) {
    if (bin.windows < fewest_windows) continue;
    const auto n = static_cast<double>(bin.rows);
    points.push_back({bin.irradiance_wpm2 / n, bin.power_w / n, bin.rows});
  }
  const Run run = widest_flat_run(points);
  if (run.end == run.begin || !rises_below(points, run.begin)) return std::nullopt;
  return clipping_of(points, run);
}

}  // namespace hailwright::detail
