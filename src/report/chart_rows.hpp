#pragma once

#include <string>
#include <vector>

#include "report/chart.hpp"

namespace hailwright::detail {

/// What is said of a row of a chart, above its marks.
struct RowWords {
  std::string name;
  std::vector<std::string> facts;  ///< a line each, or more where they are long
};

/// Rows of words, each above a strip across the picture that holds its marks.
class ChartRows {
public:
  /// @param strip_height  of a strip
  /// @param above_first   room above the first one, for words that all strips share
  ChartRows(std::vector<RowWords> rows, double strip_height, double above_first = 0.0);

  /// What all rows take; its left and right are those of the strips.
  [[nodiscard]] Frame frame(double top) const;
  [[nodiscard]] Frame strip(const Frame& frame, std::size_t row) const;
  [[nodiscard]] Frame last_strip(const Frame& frame) const;
  /// The words.
  void draw(Chart& chart, const Frame& frame) const;

private:
  std::vector<RowWords> rows_;
  std::vector<std::vector<std::string>> lines_;  ///< the facts of each, wrapped
  std::vector<double> tops_;                     ///< of rows, below that of the frame
  std::vector<double> strips_;                   ///< tops of strips, below that of the frame
  double strip_height_;
};

constexpr double rows_left = 20.0;  ///< of their words [ours]

/// "name: first fact; second fact." of all rows, for whoever cannot see them.
std::string rows_description(const std::vector<RowWords>& rows);

}  // namespace hailwright::detail
