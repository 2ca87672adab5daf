#pragma once

#include <vector>

namespace hailwright::detail {

/// Coordinates of a picture: right and down, in its own units.
struct Spot {
  double x = 0.0;
  double y = 0.0;
};

/// A rectangle around its middle.
struct LabelBox {
  Spot middle;
  double width = 0.0;
  double height = 0.0;
};

bool touch(const LabelBox& a, const LabelBox& b);

/// A disc that wants a label of this size.
struct Labelled {
  Spot middle;
  double radius = 0.0;
  double width = 0.0;
  double height = 0.0;
};

struct Label {
  LabelBox box;
  bool inside = true;    ///< of its own disc; outside it needs a line to it
  bool crowded = false;  ///< no free spot was found: it lies over something
};

/// A spot for every label: in the middle of its disc, else off the middle inside the disc, else
/// beside it, each time the first that touches no other label, no `fixed` box and, outside, no
/// disc; always within `area`. The same input gives the same spots.
std::vector<Label> place_labels(const std::vector<Labelled>& discs,
                                const std::vector<LabelBox>& fixed, const LabelBox& area);

}  // namespace hailwright::detail
