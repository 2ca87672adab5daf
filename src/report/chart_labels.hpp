#pragma once

#include <cstddef>
#include <optional>
#include <string>
#include <vector>

#include "report/chart_scale.hpp"

namespace hailwright::detail {

/// Labels along a horizontal axis, none touching another: level in one to three rows, else upright,
/// else only every second, third, ... of them (the first always).
struct AxisLabels {
  struct Label {
    std::size_t item = 0;  ///< index of what is labelled
    double x = 0.0;        ///< middle of the label; near the ends it is not that of its item
    int row = 0;           ///< counted from the axis; 0 where upright
  };
  std::vector<Label> labels;
  bool upright = false;
  int every = 1;        ///< 2: every second item has a label, and so on
  double height = 0.0;  ///< of all rows below the axis
};

/// @param at      where the items lie, rising
/// @param words   one a label, none empty
/// @param within  what labels must not leave; wider than the widest of them
AxisLabels labels_along(const std::vector<double>& at, const std::vector<std::string>& words,
                        double size, Ends within);

/// Heights for labels that would stand at `wanted`: at least `gap` apart, within the ends, as near
/// as can be to where they are wanted (least squares), in the order of what they stand for. In the
/// order given. Contract: all fit, (n - 1) gap <= length.
std::vector<double> spread_apart(const std::vector<double>& wanted, double gap, Ends within);

}  // namespace hailwright::detail
