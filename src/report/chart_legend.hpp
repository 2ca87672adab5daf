#pragma once

#include <functional>
#include <string>
#include <vector>

#include "report/chart.hpp"

namespace hailwright::detail {

/// One sign of a chart and what it means.
struct LegendEntry {
  /// Draws the sign around this spot, 28 units wide and 16 high at most; none: a line of words
  /// alone.
  std::function<void(Chart&, Spot)> sign;
  std::string words;
};

/// The signs below a chart, a line each or more where the words are long.
class Legend {
public:
  /// @param right  edge of the picture
  Legend(std::vector<LegendEntry> entries, double left, double right = chart_width);
  [[nodiscard]] double height() const;
  /// @param y  upper edge
  void draw(Chart& chart, double y) const;

private:
  std::vector<LegendEntry> entries_;
  std::vector<std::vector<std::string>> lines_;
  double left_;
};

}  // namespace hailwright::detail
