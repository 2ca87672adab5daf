#include "logs/energy_counter.hpp"

#include <algorithm>
#include <cmath>
#include <limits>

#include "hailwright/core/contract.hpp"
#include "logs/compensated_sum.hpp"
#include "logs/four_lanes.hpp"
#include "logs/row_checks.hpp"

namespace hailwright::detail {

namespace {

constexpr double never = std::numeric_limits<double>::infinity();

/// Steps of a counter over some rows.
struct Steps {
  double least = never;           ///< below 0: it fell
  double least_increase = never;  ///< above 0
  bool blank = false;
};

Steps steps_of(const double* counter_j, std::size_t rows) {
  const FourLanes nothing = FourLanes::all(never);
  FourLanes low = nothing;
  FourLanes low_rise = nothing;
  FourLanes sum{};
  std::size_t i = 1;
  for (; i + lanes <= rows; i += lanes) {
    const FourLanes step = FourLanes::load(counter_j + i) - FourLanes::load(counter_j + i - 1);
    sum += step;
    low = lesser(step, low);
    low_rise = lesser(positive_or(step, nothing), low_rise);
  }
  Steps out{least(low), least(low_rise), std::isnan(total(sum))};
  for (; i < rows; ++i) {
    const double step = counter_j[i] - counter_j[i - 1];
    if (std::isnan(step)) out.blank = true;
    out.least = std::min(out.least, step);
    if (step > 0.0) out.least_increase = std::min(out.least_increase, step);
  }
  return out;
}

}  // namespace

CounterStep counter_step(double from_j, double to_j, std::optional<double> wraps_at_j) {
  if (to_j >= from_j) return CounterStep::rise;
  const double over = wraps_at_j.value_or(0.0) + (to_j - from_j);
  if (wraps_at_j && from_j <= *wraps_at_j && over >= 0.0 && over <= *wraps_at_j / 2.0)
    return CounterStep::wrap;
  return from_j > 0.0 && to_j < from_j / 2.0 ? CounterStep::reset : CounterStep::back;
}

EnergyCounter::EnergyCounter(std::optional<Energy> wraps_at, std::int64_t longest_gap_us)
    : longest_gap_us_(longest_gap_us) {
  if (wraps_at) wraps_at_j_ = wraps_at->si();
  reading_.step_j = never;
}

void EnergyCounter::take(const std::vector<std::int64_t>& time_us,
                         const std::vector<double>& counter_j, const std::vector<double>& power_w,
                         std::size_t begin, std::size_t end) {
  const bool all_bridge = power_w.empty();
  for (std::size_t from = begin; from < end; from += rows_of_a_piece) {
    const std::size_t rows = std::min(rows_of_a_piece, end - from);
    // Its first row goes on from the piece before, whatever that ended with.
    take_row(time_us[from], counter_j[from], all_bridge || !std::isnan(power_w[from]));
    if (take_smooth(time_us.data() + from, counter_j.data() + from,
                    all_bridge ? nullptr : power_w.data() + from, rows))
      continue;
    for (std::size_t i = from + 1; i < from + rows; ++i)
      take_row(time_us[i], counter_j[i], all_bridge || !std::isnan(power_w[i]));
  }
}

bool EnergyCounter::take_smooth(const std::int64_t* time_us, const double* counter_j,
                                const double* power_w, std::size_t rows) {
  if (rows < 2) return true;
  if (any_longer_step(time_us, rows, longest_gap_us_)) return false;
  if (power_w != nullptr && any_blank(power_w, rows)) return false;
  const Steps steps = steps_of(counter_j, rows);
  if (steps.blank || steps.least < 0.0) return false;
  // All steps at once: what lies between the first reading and the last.
  add_compensated(counted_j_, counted_rest_j_, counter_j[rows - 1] - counter_j[0]);
  reading_.step_j = std::min(reading_.step_j, steps.least_increase);
  reading_.rows += static_cast<std::int64_t>(rows) - 1;
  last_j_ = counter_j[rows - 1];
  bridged_us_ = time_us[rows - 1];
  return true;
}

void EnergyCounter::take_row(std::int64_t time_us, double counter_j, bool bridges) {
  if (bridges) {
    if (any_bridge_ && time_us - bridged_us_ > longest_gap_us_) pending_gap_ = true;
    any_bridge_ = true;
    bridged_us_ = time_us;
  }
  if (std::isnan(counter_j)) return;
  pending_j_ += increase_to(counter_j);
  ++reading_.rows;
  last_j_ = counter_j;
  if (bridges) settle();
}

double EnergyCounter::increase_to(double counter_j) {
  if (reading_.rows == 0) return 0.0;
  const double step = counter_j - last_j_;
  switch (counter_step(last_j_, counter_j, wraps_at_j_)) {
  case CounterStep::rise:
    if (step > 0.0) reading_.step_j = std::min(reading_.step_j, step);
    return step;
  case CounterStep::wrap:
    ++reading_.wraps;
    return *wraps_at_j_ + step;
  case CounterStep::reset:
    ++reading_.resets;
    return std::max(counter_j, 0.0);
  case CounterStep::back:
    ++reading_.steps_back;
    stepped_back_j_ -= step;
    return 0.0;
  }
  fail_contract("unknown step of a counter");
}

void EnergyCounter::settle() {
  add_compensated(counted_j_, counted_rest_j_, pending_j_);
  if (pending_gap_ && pending_j_ > 0.0) {
    in_gaps_j_ += pending_j_;
    reading_.across_gaps = true;
  }
  pending_j_ = 0.0;
  pending_gap_ = false;
}

std::optional<CounterReading> EnergyCounter::finish() {
  if (reading_.rows == 0) return std::nullopt;
  if (pending_j_ != 0.0) {
    pending_gap_ = true;
    settle();
  }
  CounterReading out = reading_;
  if (out.step_j == never) out.step_j = 0.0;
  out.counted = Energy::from_si(counted_j_ + counted_rest_j_);
  out.in_gaps = Energy::from_si(in_gaps_j_);
  out.stepped_back = Energy::from_si(stepped_back_j_);
  return out;
}

}  // namespace hailwright::detail
