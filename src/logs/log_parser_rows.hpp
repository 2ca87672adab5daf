#pragma once

#include <cstddef>
#include <cstdint>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "hailwright/logs/log_block.hpp"
#include "hailwright/logs/log_format.hpp"

namespace hailwright::detail {

/// A column of numbers, ready to be read.
struct NumberColumn {
  LogRole role = LogRole::power;
  std::size_t place = 0;
  std::string_view unit;
  // SI is number * scale + offset, or number / scale + offset: the bits of `to_si`.
  bool divides = false;
  double scale = 1.0;
  double offset = 0.0;
  // What an instrument can show, in SI.
  double lowest = 0.0;
  double highest = 0.0;

  [[nodiscard]] double in_si(double number) const {
    return (divides ? number / scale : number * scale) + offset;
  }
  /// True of a blank cell's NaN too.
  [[nodiscard]] bool shows(double si) const { return !(si < lowest) && !(si > highest); }
};

/// Which cells of a row are read, and as what.
struct RowLayout {
  explicit RowLayout(const LogShape& shape);

  std::vector<std::string> headers;
  char separator = ',';
  char decimal = '.';
  int head_lines = 1;  ///< lines above the rows: headers, units, whatever stands before them
  std::vector<NumberColumn> numbers;
  // Places in a row. Either `time`, or `date` and `clock`.
  std::optional<std::size_t> time;
  std::optional<std::size_t> date;
  std::optional<std::size_t> clock;
  std::optional<std::size_t> marker;
  /// Set where power is voltage times current: their places in `numbers`.
  struct Parts {
    std::size_t voltage = 0;
    std::size_t current = 0;
    NumberColumn power;
  };
  std::optional<Parts> parts;
};

/// The rows of a block while it is filled: room for all of them is made at once, a row is written
/// into its place, and counts only when it is complete.
class RowsInMaking {
public:
  RowsInMaking(const RowLayout& layout, LogBlock& block, std::size_t most_rows);

  void set_time(std::int64_t us) { time_[row_] = us; }
  /// As it stands in the file, in the unit of its column, which is counted in `RowLayout::numbers`.
  void set_number(std::size_t column, double number) { columns_[column][row_] = number; }
  void set_marker(std::string_view text) {
    if (block_.markers.empty() || block_.markers.back().text != text)
      block_.markers.push_back({row_, std::string(text)});
  }
  void complete_row() {
    line_[row_] = block_.lines;
    ++row_;
  }
  void count_line() { ++block_.lines; }
  /// Where the times and numbers of the next rows go, for several at once.
  [[nodiscard]] std::int64_t* times() { return time_ + row_; }
  [[nodiscard]] double* numbers(std::size_t column) { return columns_[column] + row_; }
  /// So many rows are complete, each on a line of its own.
  void complete_rows(std::size_t count) {
    for (std::size_t i = 0; i < count; ++i)
      line_[row_ + i] = block_.lines + static_cast<std::uint32_t>(i);
    row_ += count;
    block_.lines += static_cast<std::uint32_t>(count);
  }
  [[nodiscard]] LogBlock& block() { return block_; }
  /// Cuts the columns to the rows that there are and turns them into SI. False when a number is
  /// outside what an instrument shows: rows that were read without looking at that may be wrong.
  bool finish();

private:
  const RowLayout& layout_;
  LogBlock& block_;
  std::size_t row_ = 0;
  std::int64_t* time_;
  std::uint32_t* line_;
  std::vector<double*> columns_;
  double* power_ = nullptr;
};

}  // namespace hailwright::detail
