#include <algorithm>
#include <cmath>

#include "hailwright/logs/stretch_meter.hpp"
#include "logs/compensated_sum.hpp"
#include "logs/four_lanes.hpp"
#include "logs/row_checks.hpp"

namespace hailwright {

namespace {

PowerIntegral one_row(std::int64_t time_us, double power_w) {
  PowerIntegral row;
  row.rows = 1;
  row.first_us = row.last_us = time_us;
  row.first_w = row.last_w = power_w;
  return row;
}

/// Energy of one step [W s]. A division, since whole seconds then come out exact.
double trapezoid(double from_w, double to_w, std::int64_t step_us) {
  return 0.5 * (from_w + to_w) * (static_cast<double>(step_us) / 1e6);
}

/// Energy of even steps [W steps]: all powers, both ends by half. One product for all steps.
void add_even_steps(PowerIntegral& piece, const double* power, std::size_t rows) {
  detail::FourLanes sum{};
  detail::FourLanes rest{};
  std::size_t i = 1;
  for (; i + detail::lanes < rows; i += detail::lanes)
    detail::add_compensated(sum, rest, detail::FourLanes::load(power + i));
  for (; i + 1 < rows; ++i)
    detail::add_compensated(piece.sum_ws, piece.sum_rest, power[i]);
  detail::add_compensated(piece.sum_ws, piece.sum_rest, 0.5 * power[0]);
  detail::add_compensated(piece.sum_ws, piece.sum_rest, 0.5 * power[rows - 1]);
  for (const double lane : {sum.low[0], sum.low[1], sum.high[0], sum.high[1]})
    detail::add_compensated(piece.sum_ws, piece.sum_rest, lane);
  piece.sum_rest += detail::total(rest);
}

void add_uneven_steps(PowerIntegral& piece, const std::int64_t* time_us, const double* power,
                      std::size_t rows) {
  for (std::size_t i = 1; i < rows; ++i)
    detail::add_compensated(piece.sum_ws, piece.sum_rest,
                            trapezoid(power[i - 1], power[i], time_us[i] - time_us[i - 1]));
}

/// Rows without a gap. The sum is NaN when a cell is blank.
PowerIntegral of_whole_piece(const std::int64_t* time_us, const double* power, std::size_t rows,
                             bool even) {
  PowerIntegral piece = one_row(time_us[0], power[0]);
  if (even) {
    add_even_steps(piece, power, rows);
    const double step_s = static_cast<double>(time_us[1] - time_us[0]) / 1e6;
    piece.sum_ws *= step_s;
    piece.sum_rest *= step_s;
  } else {
    add_uneven_steps(piece, time_us, power, rows);
  }
  piece.rows = static_cast<std::int64_t>(rows);
  piece.last_us = time_us[rows - 1];
  piece.last_w = power[rows - 1];
  piece.bridged_us = piece.last_us - piece.first_us;
  return piece;
}

PowerIntegral of_piece(const std::int64_t* time_us, const double* power, std::size_t rows,
                       double longest_gap_s) {
  const bool even = rows > 2 && detail::even_steps(time_us, rows);
  // Of even steps a look at the first is enough.
  if (!detail::any_longer_step(time_us, even ? 2 : rows, detail::microseconds(longest_gap_s))) {
    const PowerIntegral whole = of_whole_piece(time_us, power, rows, even);
    // A single blank row has no step to show it.
    if (!std::isnan(whole.sum_ws) && !std::isnan(whole.first_w)) return whole;
  }
  PowerIntegral piece;
  for (std::size_t i = 0; i < rows; ++i)
    if (!std::isnan(power[i])) piece.append(one_row(time_us[i], power[i]), longest_gap_s);
  return piece;
}

}  // namespace

PowerIntegral PowerIntegral::of(const std::vector<std::int64_t>& time_us,
                                const std::vector<double>& power, std::size_t begin,
                                std::size_t end, double longest_gap_s) {
  PowerIntegral all;
  for (std::size_t from = begin; from < end; from += detail::rows_of_a_piece) {
    const std::size_t rows = std::min(detail::rows_of_a_piece, end - from);
    all.append(of_piece(time_us.data() + from, power.data() + from, rows, longest_gap_s),
               longest_gap_s);
  }
  return all;
}

void PowerIntegral::append(const PowerIntegral& next, double longest_gap_s) {
  if (next.rows == 0) return;
  if (rows == 0) {
    *this = next;
    return;
  }
  const std::int64_t step_us = next.first_us - last_us;
  if (step_us > detail::microseconds(longest_gap_s)) {
    ++gaps;
    in_gaps_us += step_us;
  } else {
    detail::add_compensated(sum_ws, sum_rest, trapezoid(last_w, next.first_w, step_us));
    bridged_us += step_us;
  }
  detail::add_compensated(sum_ws, sum_rest, next.sum_ws);
  sum_rest += next.sum_rest;
  bridged_us += next.bridged_us;
  gaps += next.gaps;
  in_gaps_us += next.in_gaps_us;
  rows += next.rows;
  last_us = next.last_us;
  last_w = next.last_w;
}

}  // namespace hailwright
