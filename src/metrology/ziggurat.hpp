#pragma once

#include <array>
#include <cstddef>
#include <cstdint>

#include "hailwright/metrology/random.hpp"
#include "metrology/random_kernels.hpp"

namespace hailwright::detail {

/// The right half of exp(-x^2/2) cut into rectangles of equal area that lie wholly below it, each
/// from x = 0 to its width, and a rest. A share of `rectangles`/`layers` of the whole area lies in
/// them; there a draw is a random rectangle and a random place in its width. The rest is the tail
/// and what each rectangle leaves free of the step above the one before; it is drawn by rejection.
/// After Marsaglia and Tsang (2000) and McFarland (2016); how the rest is drawn is ours.
class Ziggurat {
public:
  static constexpr std::size_t layers = 1024;

  Ziggurat();

  /// Twice the width of each rectangle, since a centred unit is at most a half; 0 for the layers
  /// that stand for the rest.
  [[nodiscard]] const std::array<double, layers>& full_width() const { return full_width_; }
  [[nodiscard]] std::size_t rectangles() const { return rectangles_; }
  [[nodiscard]] bool in_rectangle(std::uint64_t word) const { return word % layers < rectangles_; }
  /// A draw by this word, and by more of the stream when it falls on the rest.
  double draw(std::uint64_t word, RandomStream& random) const {
    return in_rectangle(word) ? centred_unit(word) * full_width_[word % layers] : rest(random);
  }

private:
  /// A part of the rest and a box around it: from `x` on `dx` wide, from `y` up `dy` high. The tail
  /// has the box 0, whose place is not used.
  struct Box {
    double x = 0.0, dx = 0.0, y = 0.0, dy = 0.0;
    double margin = 0.0;  ///< no more of its height the curve leaves the chord
  };
  /// Draws a box with the probability of its area: the column's own, or the other one.
  struct Column {
    double own = 1.0;
    std::array<std::size_t, 2> boxes{};
  };

  static Box box_between(double left, double right, double low, double high);
  /// Returns the boxes' number; they stand in the first places.
  std::size_t lay_rectangles();
  void lay_columns(std::size_t boxes);
  /// A draw from the rest, of either sign.
  double rest(RandomStream& random) const;
  double try_tail(RandomStream& random) const;
  static double try_box(const Box& box, RandomStream& random);

  std::size_t rectangles_ = 0;
  double tail_start_ = 0.0;
  std::array<double, layers> full_width_{};
  std::array<Box, layers> boxes_{};
  std::array<Column, layers> columns_{};
};

/// Laid at the first call.
const Ziggurat& ziggurat();

}  // namespace hailwright::detail
