#pragma once

#include <string>
#include <vector>

#include "report/chart.hpp"

namespace hailwright::detail {

/// What is said of a row of a chart, at the left of its marks.
struct RowWords {
  std::string name;
  std::vector<std::string> facts;  ///< a line each, or more where they are long
};

/// Rows of words beside a frame in which each row has its marks.
class ChartRows {
public:
  /// @param least_height  of a row, for its marks
  ChartRows(std::vector<RowWords> rows, double least_height);

  /// The frame for the marks of all rows.
  [[nodiscard]] Frame frame(double top) const;
  /// Upper edge of a row.
  [[nodiscard]] double top(const Frame& frame, std::size_t row) const;
  /// The words, and lines between the rows.
  void draw(Chart& chart, const Frame& frame) const;

private:
  void write(Chart& chart, std::size_t row, double top) const;
  std::vector<RowWords> rows_;
  std::vector<std::vector<std::string>> lines_;  ///< the facts of each, wrapped
  std::vector<double> tops_;                     ///< below that of the frame; last: its bottom
};

constexpr double rows_left = 20.0;  ///< of their words [ours]

/// "name: first fact; second fact." of all rows, for whoever cannot see them.
std::string rows_description(const std::vector<RowWords>& rows);

}  // namespace hailwright::detail
