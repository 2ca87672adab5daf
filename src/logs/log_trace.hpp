#pragma once

#include <array>
#include <cstddef>
#include <cstdint>
#include <limits>
#include <vector>

#include "hailwright/logs/log_analysis.hpp"

namespace hailwright::detail {

/// Draws the course of a log while its rows come in, in at most `most_points` points whatever its
/// length. A point is one usual step wide at first; whenever the points do not suffice, neighbours
/// are merged and the step doubles. Every row is added on its own and in order, so that the course
/// has the same bits however the rows are split into blocks.
class TraceDrawer {
public:
  static constexpr std::size_t most_points = 1024;

  void take(const LogBlock& block);
  LogTrace finish();

private:
  static constexpr double nan = std::numeric_limits<double>::quiet_NaN();
  /// A column over the rows of a point, blank cells left out. Every fourth row goes to the same
  /// partial sum, by its number in the point.
  struct Column {
    static constexpr std::size_t lanes = 4;
    std::array<double, lanes> sum{}, count{};
    double least = std::numeric_limits<double>::infinity();
    double most = -std::numeric_limits<double>::infinity();
    /// @param number  of the first cell's row in the point
    void add(const double* cells, std::size_t rows, std::size_t number);
    std::size_t add_fours(const double* cells, std::size_t rows);  ///< gives how many
    void add(const Column& other);
    [[nodiscard]] bool blank() const;
    [[nodiscard]] double mean() const;
  };
  struct Cell {
    std::size_t rows = 0;
    Column power, irradiance, beside;
    void add(const Cell& other);
    [[nodiscard]] LogTrace::Point point() const;
  };
  /// A first row, kept until the usual step is known.
  struct EarlyRow {
    std::int64_t time_us = 0;
    double power = nan, irradiance = nan, beside = nan;
  };

  void keep(const LogBlock& block, std::size_t begin, std::size_t end);
  void begin();
  void place(const LogBlock& block, std::size_t begin);
  [[nodiscard]] std::size_t cell_of(std::int64_t time_us);
  void halve();

  std::vector<EarlyRow> early_;
  bool begun_ = false;
  std::int64_t from_us_ = 0;
  std::int64_t step_us_ = 1;
  std::vector<Cell> cells_;
};

}  // namespace hailwright::detail
