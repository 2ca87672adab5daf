#include "logs/ratio_windows.hpp"

#include <cmath>
#include <limits>

#include "logs/row_checks.hpp"

namespace hailwright::detail {

namespace {

constexpr std::int64_t window_us = 60'000'000;
constexpr std::int64_t least_covered_us = window_us / 2;

/// What a window begins with: the last row before it.
PowerIntegral from_last_row(const PowerIntegral& before) {
  PowerIntegral row;
  if (before.rows == 0) return row;
  row.rows = 1;
  row.first_us = row.last_us = before.last_us;
  row.first_w = row.last_w = before.last_w;
  return row;
}

/// Adds a window that began with the last row before it.
void append_window(PowerIntegral& all, const PowerIntegral& window, double longest_gap_s) {
  const std::int64_t rows_before = all.rows;
  all.append(window, longest_gap_s);
  if (rows_before > 0 && window.rows > 0) --all.rows;
}

}  // namespace

RatioWindows::RatioWindows(Power load_on, double longest_gap_s)
    : load_on_w_(load_on.si()), longest_gap_s_(longest_gap_s), windows_(window_us) {}

void RatioWindows::take(const std::vector<std::int64_t>& time_us,
                        const std::vector<double>& first_w, const std::vector<double>& second_w,
                        std::size_t begin, std::size_t end) {
  const bool blanks = any_blank(first_w.data() + begin, end - begin) ||
                      any_blank(second_w.data() + begin, end - begin);
  if (blanks) fill_common(first_w, second_w, begin, end);
  const auto& first = blanks ? common_first_w_ : first_w;
  const auto& second = blanks ? common_second_w_ : second_w;
  windows_.go_through(
      time_us, begin, end, [&] { close(); },
      [&](std::size_t from, std::size_t to) {
        grow(first_, time_us, first, from, to);
        grow(second_, time_us, second, from, to);
      });
}

void RatioWindows::fill_common(const std::vector<double>& first_w,
                               const std::vector<double>& second_w, std::size_t begin,
                               std::size_t end) {
  common_first_w_.resize(first_w.size());
  common_second_w_.resize(first_w.size());
  for (std::size_t i = begin; i < end; ++i) {
    // A blank in one makes the other blank; nothing else changes.
    common_first_w_[i] = first_w[i] + 0.0 * second_w[i];
    common_second_w_[i] = second_w[i] + 0.0 * first_w[i];
  }
}

void RatioWindows::grow(PowerIntegral& window, const std::vector<std::int64_t>& time_us,
                        const std::vector<double>& power_w, std::size_t begin, std::size_t end) {
  window.append(PowerIntegral::of(time_us, power_w, begin, end, longest_gap_s_), longest_gap_s_);
  powers_.add(power_w, begin, end);
}

bool RatioWindows::counts() const {
  return powers_.count > 0 && powers_.least >= load_on_w_ && first_.gaps == 0 &&
         first_.bridged_us >= least_covered_us && first_.first_w >= load_on_w_ &&
         second_.first_w >= load_on_w_;
}

void RatioWindows::close() {
  if (counts()) {
    const double second_ws = second_.energy_j();
    const SeriesSums one =
        SeriesSums::of_one(second_.last_us, std::log(second_ws / first_.energy_j()));
    if (windows_.index() == last_counted_ + 1)
      ln_ratio_.append(one, std::numeric_limits<std::int64_t>::max());
    else
      ln_ratio_.append_apart(one);
    last_counted_ = windows_.index();
    slope_sum_per_s_ -= (second_.last_w - second_.first_w) / second_ws;
  }
  append_window(all_first_, first_, longest_gap_s_);
  append_window(all_second_, second_, longest_gap_s_);
  first_ = from_last_row(all_first_);
  second_ = from_last_row(all_second_);
  powers_ = {};
}

std::optional<RatioMean> RatioWindows::finish() {
  close();
  if (ln_ratio_.count == 0) return std::nullopt;
  RatioMean mean;
  mean.windows = ln_ratio_.result();
  mean.ratio = std::exp(mean.windows.mean);
  mean.first = Energy::from_si(all_first_.energy_j());
  mean.second = Energy::from_si(all_second_.energy_j());
  mean.slope_per_s = slope_sum_per_s_ / static_cast<double>(ln_ratio_.count);
  return mean;
}

}  // namespace hailwright::detail
