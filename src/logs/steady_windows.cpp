#include "logs/steady_windows.hpp"

#include <algorithm>
#include <cmath>
#include <limits>
#include <string_view>

#include "logs/row_checks.hpp"

namespace hailwright::detail {

namespace {

double width(const ColumnTotal& total) {
  return total.most - total.least;
}

}  // namespace

Time usual_steady_window(double usual_step_s) {
  constexpr double steps = 6.0;
  return Time::from_si(std::max(SteadyRule{}.window.si(), steps * usual_step_s));
}

SteadyWindows::SteadyWindows(const SteadyRule& rule, std::int64_t longest_gap_us)
    : rule_(rule), longest_gap_us_(longest_gap_us), windows_(microseconds(rule.window.si())) {}

void SteadyWindows::take(const StretchRows& rows, std::size_t begin, std::size_t end,
                         RowKeeper& keeper) {
  windows_.go_through(
      rows.block.time_us, begin, end, [&] { close(false, keeper); },
      [&](std::size_t from, std::size_t to) {
        add(rows, from, to);
        keeper.add(rows.block, from, to);
      });
}

void SteadyWindows::finish(RowKeeper& keeper) {
  if (window_.rows > 0) close(true, keeper);
}

void SteadyWindows::add(const StretchRows& rows, std::size_t begin, std::size_t end) {
  const auto& time_us = rows.block.time_us;
  if (window_.rows == 0)
    window_.first_us = time_us[begin];
  else if (time_us[begin] - window_.last_us > longest_gap_us_)
    window_.gap = true;
  if (any_longer_step(time_us.data() + begin, end - begin, longest_gap_us_)) window_.gap = true;
  window_.rows += static_cast<std::int64_t>(end - begin);
  window_.last_us = time_us[end - 1];
  if (!rows.column(LogRole::irradiance).empty()) add_irradiance(rows, begin, end);
  window_.sums.append(StretchSums::of(rows, begin, end, longest_gap_us_), true, longest_gap_us_);
}

void SteadyWindows::add_irradiance(const StretchRows& rows, std::size_t begin, std::size_t end) {
  const auto& time_us = rows.block.time_us;
  const std::int64_t length = windows_.length_us();
  while (begin < end) {
    const std::int64_t part = (time_us[begin] - windows_.begin_us()) * parts / length;
    const std::int64_t part_end = windows_.begin_us() + ((part + 1) * length + parts - 1) / parts;
    const std::size_t to = RowWindows::first_at_or_after(time_us, begin, end, part_end);
    window_.irradiance[static_cast<std::size_t>(part)].append(
        ColumnTotal::of(rows.column(LogRole::irradiance), begin, to));
    begin = to;
  }
}

bool SteadyWindows::broken(bool last) const {
  constexpr std::int64_t fewest = 3;
  const ColumnTotal& irradiance = window_.sums.irradiance;
  if (window_.gap || irradiance.count < fewest || !(irradiance.mean() > 0.0)) return true;
  if (window_.first_us - windows_.begin_us() > longest_gap_us_) return true;
  if (windows_.end_us() - window_.last_us <= longest_gap_us_) return false;
  return !last || window_.last_us - windows_.begin_us() < windows_.length_us() / 2;
}

double SteadyWindows::drift(bool last) const {
  std::int64_t there = parts;
  if (last) {
    const std::int64_t length = windows_.length_us();
    there = (window_.last_us - windows_.begin_us()) * parts / length + 1;
  }
  const auto third = static_cast<std::size_t>((there + 1) / 3);
  const auto end = static_cast<std::size_t>(there);
  ColumnTotal first;
  ColumnTotal final;
  for (std::size_t part = 0; part < third; ++part) {
    first.append(window_.irradiance[part]);
    final.append(window_.irradiance[end - third + part]);
  }
  if (first.count == 0 || final.count == 0) return std::numeric_limits<double>::quiet_NaN();
  return std::abs(final.mean() - first.mean()) / window_.sums.irradiance.mean();
}

SteadyWindows::Answer SteadyWindows::judge(bool last) const {
  if (broken(last)) return Answer::broken;
  const ColumnTotal& irradiance = window_.sums.irradiance;
  const double drifted = drift(last);
  if (std::isnan(drifted)) return Answer::broken;
  if (width(irradiance) > rule_.irradiance_change.si() * irradiance.mean())
    return Answer::irradiance;
  if (drifted > rule_.ramp.si()) return Answer::ramp;
  const double warmed =
      std::max(width(window_.sums.temperature), width(window_.sums.temperature_beside));
  return warmed > rule_.temperature_change.si() ? Answer::temperature : Answer::steady;
}

void SteadyWindows::close(bool last, RowKeeper& keeper) {
  struct Outcome {
    std::int64_t SteadyTally::*rows;
    std::string_view reason;
  };
  // In the order of Answer; the reasons enter records as they stand.
  static constexpr std::array outcomes{
      Outcome{&SteadyTally::rows_kept, {}},
      Outcome{&SteadyTally::rows_broken, "window cut short or with a gap"},
      Outcome{&SteadyTally::rows_irradiance, "irradiance changed"},
      Outcome{&SteadyTally::rows_ramp, "irradiance drifted"},
      Outcome{&SteadyTally::rows_temperature, "temperature changed"}};
  const Answer answer = judge(last);
  const Outcome& outcome = outcomes[static_cast<std::size_t>(answer)];
  tally_.*outcome.rows += window_.rows;
  keeper.close_window(outcome.reason);
  const bool steady = answer == Answer::steady;
  if (steady) kept_.append(window_.sums, before_kept_, longest_gap_us_);
  before_kept_ = steady;
  window_ = {};
}

}  // namespace hailwright::detail
