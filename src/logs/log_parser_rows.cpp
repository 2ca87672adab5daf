#include "logs/log_parser_rows.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <limits>
#include <span>

#include "hailwright/core/contract.hpp"
#include "hailwright/core/quantity_text.hpp"
#include "logs/four_lanes.hpp"

namespace hailwright::detail {

namespace {

struct Span {
  double lowest;
  double highest;
};

/// Beyond this no instrument for a small panel shows anything, in SI [ours]. Pyranometers show a
/// few W/m2 below zero at night (common practice, no source).
Span instrument_span(Measure measure) {
  constexpr double zero_degC_K = 273.15;
  switch (measure) {
  case Measure::power:
    return {-1e3, 100e3};
  case Measure::irradiance:
    return {-50.0, 2000.0};
  case Measure::temperature:
    return {zero_degC_K - 60.0, zero_degC_K + 150.0};
  case Measure::energy:
    return {0.0, 1e13};
  case Measure::voltage:
    return {-1e3, 1500.0};
  case Measure::current:
    return {-1e3, 1e3};
  default:
    fail_contract("a log has no numbers of this measure");
  }
}

NumberColumn number_column(const LogColumn& column, Measure measure) {
  NumberColumn result;
  result.role = column.role;
  result.place = column.place;
  result.unit = column.unit.symbol;
  // `to_si` divides where the unit is a decimal part of the SI unit, so that it rounds once.
  const double inverse = 1.0 / column.unit.factor;
  result.divides = column.unit.factor < 1.0 && inverse == std::round(inverse);
  result.scale = result.divides ? inverse : column.unit.factor;
  result.offset = column.unit.offset;
  result.lowest = instrument_span(measure).lowest;
  result.highest = instrument_span(measure).highest;
  return result;
}

std::optional<std::size_t> place_of(const LogShape& shape, LogRole role) {
  const LogColumn* column = shape.column(role);
  return column != nullptr ? std::optional(column->place) : std::nullopt;
}

/// Turns numbers into SI; false when one is outside what an instrument shows. The least and the
/// most of them are looked at in the end, since a branch for each would take thrice the time. NaN
/// is neither.
template <bool divides>
bool fours_into_si(std::span<double> column, const NumberColumn& form) {
  const FourLanes scale = FourLanes::all(form.scale);
  const FourLanes offset = FourLanes::all(form.offset);
  FourLanes low = FourLanes::all(form.lowest);
  FourLanes high = FourLanes::all(form.highest);
  const auto turn = [&](double* numbers) {
    const FourLanes read = FourLanes::load(numbers);
    const FourLanes si = (divides ? read / scale : read * scale) + offset;
    low = lesser(si, low);
    high = greater(si, high);
    si.store(numbers);
  };
  const std::size_t whole = column.size() / lanes * lanes;
  for (std::size_t i = 0; i < whole; i += lanes)
    turn(&column[i]);
  // NOLINTNEXTLINE(cppcoreguidelines-pro-type-member-init): filled before it is read
  std::array<double, lanes> rest;
  rest.fill(std::numeric_limits<double>::quiet_NaN());
  std::copy(column.begin() + static_cast<std::ptrdiff_t>(whole), column.end(), rest.begin());
  turn(rest.data());
  std::copy_n(rest.begin(), column.size() - whole,
              column.begin() + static_cast<std::ptrdiff_t>(whole));
  return least(low) >= form.lowest && most(high) <= form.highest;
}

bool turn_into_si(std::span<double> column, const NumberColumn& form) {
  return form.divides ? fours_into_si<true>(column, form) : fours_into_si<false>(column, form);
}

/// Empties a block and makes room for so many rows in the columns that a log has. Columns keep
/// their length as well as their memory: filling them with zeros first would cost as much as
/// writing them.
LogBlock& with_room(const RowLayout& layout, LogBlock& block, std::size_t rows) {
  std::array<std::vector<double>, log_roles> kept = std::move(block.values);
  std::vector<std::int64_t> times = std::move(block.time_us);
  std::vector<std::uint32_t> lines = std::move(block.line);
  block.values = {};
  block.clear();
  block.time_us = std::move(times);
  block.line = std::move(lines);
  block.time_us.resize(rows);
  block.line.resize(rows);
  const auto keep = [&](LogRole role) {
    block.values[index_of(role)] = std::move(kept[index_of(role)]);
    block.values[index_of(role)].resize(rows);
  };
  for (const NumberColumn& number : layout.numbers)
    keep(number.role);
  if (layout.parts) keep(LogRole::power);
  return block;
}

}  // namespace

RowLayout::RowLayout(const LogShape& shape)
    : headers(shape.headers), separator(shape.separator), decimal(shape.decimal),
      head_lines(shape.first_row_line - 1), time(place_of(shape, LogRole::time)),
      date(place_of(shape, LogRole::date)), clock(place_of(shape, LogRole::clock)),
      marker(place_of(shape, LogRole::marker)) {
  expects(time || (date && clock), "a log has a column of time");
  for (const LogColumn& column : shape.used) {
    expects(column.place < headers.size(), "a column that is read has a header");
    if (const std::optional<Measure> measure = measure_of(column.role))
      numbers.push_back(number_column(column, *measure));
  }
  const auto index_in_numbers = [&](LogRole role) {
    const auto at = std::find_if(numbers.begin(), numbers.end(),
                                 [&](const NumberColumn& c) { return c.role == role; });
    return static_cast<std::size_t>(at - numbers.begin());
  };
  const std::size_t voltage = index_in_numbers(LogRole::voltage);
  const std::size_t current = index_in_numbers(LogRole::current);
  if (shape.column(LogRole::power) == nullptr && voltage < numbers.size() &&
      current < numbers.size()) {
    parts = Parts{voltage, current, {}};
    parts->power.lowest = instrument_span(Measure::power).lowest;
    parts->power.highest = instrument_span(Measure::power).highest;
  }
}

RowsInMaking::RowsInMaking(const RowLayout& layout, LogBlock& block, std::size_t most_rows)
    : layout_(layout), block_(with_room(layout, block, most_rows)), time_(block.time_us.data()),
      line_(block.line.data()) {
  const auto column = [&](LogRole role) { return block.values[index_of(role)].data(); };
  for (const NumberColumn& number : layout.numbers)
    columns_.push_back(column(number.role));
  if (layout.parts) power_ = column(LogRole::power);
}

bool RowsInMaking::finish() {
  block_.time_us.resize(row_);
  block_.line.resize(row_);
  for (std::vector<double>& column : block_.values) {
    if (!column.empty()) column.resize(row_);
  }
  bool all_shown = true;
  for (std::size_t i = 0; i < columns_.size(); ++i)
    all_shown = turn_into_si({columns_[i], row_}, layout_.numbers[i]) && all_shown;
  if (!layout_.parts) return all_shown;
  const double* voltage = columns_[layout_.parts->voltage];
  const double* current = columns_[layout_.parts->current];
  for (std::size_t i = 0; i < row_; ++i)
    power_[i] = voltage[i] * current[i];
  return turn_into_si({power_, row_}, layout_.parts->power) && all_shown;
}

}  // namespace hailwright::detail
