#include "logs/log_trace.hpp"

#include <algorithm>
#include <cmath>

#include "logs/four_lanes.hpp"

namespace hailwright::detail {

namespace {

constexpr std::int64_t second_us = 1'000'000;

/// The median step between rows that differ in time; a second where none do.
std::int64_t usual_step_us(const std::vector<std::int64_t>& times_us) {
  std::vector<std::int64_t> steps;
  for (std::size_t i = 1; i < times_us.size(); ++i)
    if (times_us[i] > times_us[i - 1]) steps.push_back(times_us[i] - times_us[i - 1]);
  if (steps.empty()) return second_us;
  const auto middle = steps.begin() + static_cast<std::ptrdiff_t>((steps.size() - 1) / 2);
  std::nth_element(steps.begin(), middle, steps.end());
  return *middle;
}

const double* cells_of(const LogBlock& block, LogRole role) {
  const std::vector<double>& column = block.column(role);
  return column.empty() ? nullptr : column.data();
}

}  // namespace

// Blank cells are NaN, the only number that differs from itself; a comparison with it is false.
void TraceDrawer::Column::add(const double* cells, std::size_t rows, std::size_t number) {
  const auto add_to = [this](std::size_t lane, double cell) {
    const bool there = cell == cell;
    sum[lane] += there ? cell : 0.0;
    count[lane] += there ? 1.0 : 0.0;
    least = cell < least ? cell : least;
    most = cell > most ? cell : most;
  };
  std::size_t row = 0;
  for (; row < rows && (number + row) % lanes != 0; ++row)
    add_to((number + row) % lanes, cells[row]);
  row += add_fours(cells + row, rows - row);
  for (; row < rows; ++row)
    add_to((number + row) % lanes, cells[row]);
}

// The same, four rows at once; blank cells are looked for when the sum shows one.
std::size_t TraceDrawer::Column::add_fours(const double* cells, std::size_t rows) {
  const std::size_t whole = rows / lanes * lanes;
  FourLanes sums = FourLanes::load(sum.data());
  FourLanes low = FourLanes::all(least);
  FourLanes high = FourLanes::all(most);
  for (std::size_t row = 0; row < whole; row += lanes) {
    const FourLanes four = FourLanes::load(cells + row);
    sums += four;
    low = lesser(four, low);
    high = greater(four, high);
  }
  if (std::isnan(total(sums))) return 0;
  sums.store(sum.data());
  const std::size_t fours = whole / lanes;
  for (double& lane : count)
    lane += static_cast<double>(fours);
  least = detail::least(low);
  most = detail::most(high);
  return whole;
}

void TraceDrawer::Column::add(const Column& other) {
  for (std::size_t lane = 0; lane < lanes; ++lane) {
    sum[lane] += other.sum[lane];
    count[lane] += other.count[lane];
  }
  least = std::min(least, other.least);
  most = std::max(most, other.most);
}

bool TraceDrawer::Column::blank() const {
  return most < least;
}

double TraceDrawer::Column::mean() const {
  if (blank()) return nan;
  return ((sum[0] + sum[1]) + (sum[2] + sum[3])) / ((count[0] + count[1]) + (count[2] + count[3]));
}

void TraceDrawer::Cell::add(const Cell& other) {
  rows += other.rows;
  power.add(other.power);
  irradiance.add(other.irradiance);
  beside.add(other.beside);
}

LogTrace::Point TraceDrawer::Cell::point() const {
  return {.rows = static_cast<std::int64_t>(rows),
          .power_least = power.blank() ? nan : power.least,
          .power_mean = power.mean(),
          .power_most = power.blank() ? nan : power.most,
          .irradiance_mean = irradiance.mean(),
          .beside_mean = beside.mean()};
}

void TraceDrawer::take(const LogBlock& block) {
  std::size_t at = 0;
  if (!begun_) {
    at = std::min(block.rows(), most_points - early_.size());
    keep(block, 0, at);
    if (early_.size() == most_points) begin();
  }
  if (at < block.rows()) place(block, at);
}

void TraceDrawer::keep(const LogBlock& block, std::size_t begin, std::size_t end) {
  const auto cell = [&](LogRole role, std::size_t row) {
    return block.column(role).empty() ? nan : block.column(role)[row];
  };
  for (std::size_t row = begin; row < end; ++row)
    early_.push_back({block.time_us[row], cell(LogRole::power, row), cell(LogRole::irradiance, row),
                      cell(LogRole::power_beside, row)});
}

// Half a step before the first row, so that rows of a regular log that stray a little stay each in
// a point of its own.
void TraceDrawer::begin() {
  begun_ = true;
  LogBlock rows;
  for (const EarlyRow& row : early_) {
    rows.time_us.push_back(row.time_us);
    rows.values[index_of(LogRole::power)].push_back(row.power);
    rows.values[index_of(LogRole::irradiance)].push_back(row.irradiance);
    rows.values[index_of(LogRole::power_beside)].push_back(row.beside);
  }
  early_ = {};
  if (rows.rows() == 0) return;
  step_us_ = usual_step_us(rows.time_us);
  from_us_ = rows.time_us.front() - step_us_ / 2;
  place(rows, 0);
}

void TraceDrawer::place(const LogBlock& block, std::size_t begin) {
  const double* power = cells_of(block, LogRole::power);
  const double* irradiance = cells_of(block, LogRole::irradiance);
  const double* beside = cells_of(block, LogRole::power_beside);
  for (std::size_t at = begin; at < block.rows();) {
    const std::size_t number = cell_of(block.time_us[at]);
    const std::int64_t to_us = from_us_ + static_cast<std::int64_t>(number + 1) * step_us_;
    std::size_t end = at + 1;
    while (end < block.rows() && block.time_us[end] < to_us)
      ++end;
    const std::size_t rows = end - at;
    Cell& cell = cells_[number];
    if (power != nullptr) cell.power.add(power + at, rows, cell.rows);
    if (irradiance != nullptr) cell.irradiance.add(irradiance + at, rows, cell.rows);
    if (beside != nullptr) cell.beside.add(beside + at, rows, cell.rows);
    cell.rows += rows;
    at = end;
  }
}

std::size_t TraceDrawer::cell_of(std::int64_t time_us) {
  while ((time_us - from_us_) / step_us_ >= static_cast<std::int64_t>(most_points))
    halve();
  const auto number = static_cast<std::size_t>((time_us - from_us_) / step_us_);
  if (number >= cells_.size()) cells_.resize(number + 1);
  return number;
}

void TraceDrawer::halve() {
  const std::size_t half = (cells_.size() + 1) / 2;
  for (std::size_t i = 0; i < half; ++i) {
    Cell merged = cells_[2 * i];
    if (2 * i + 1 < cells_.size()) merged.add(cells_[2 * i + 1]);
    cells_[i] = merged;
  }
  cells_.resize(half);
  step_us_ *= 2;
}

LogTrace TraceDrawer::finish() {
  if (!begun_) begin();
  LogTrace trace;
  trace.from_us = from_us_;
  trace.step_s = cells_.empty() ? 0.0 : static_cast<double>(step_us_) * 1e-6;
  trace.points.reserve(cells_.size());
  for (const Cell& cell : cells_)
    trace.points.push_back(cell.point());
  return trace;
}

}  // namespace hailwright::detail
