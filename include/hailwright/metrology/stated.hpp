#pragma once

#include <limits>

#include "hailwright/core/quantity.hpp"
#include "hailwright/core/source.hpp"

namespace hailwright {

/// Shape of the distribution that an uncertainty statement stands for (JCGM 100:2008, 4.3).
enum class Shape { normal, rectangular, triangular, arcsine };

/// Divisor from half-width to standard deviation: sqrt(3), sqrt(6), sqrt(2) for the bounded
/// shapes (JCGM 100:2008, 4.3.7 to 4.3.9); 1 for normal, whose size is a standard deviation.
double half_width_divisor(Shape shape);

/// What somebody promises about an error, before it is applied to a reading. It may have a part
/// proportional to the reading, a constant part, and a part in steps of the display.
/// Each part is its own independent error; `shape` says what the sizes are: half-widths for the
/// bounded shapes, standard deviations for normal.
template <class Q>
struct Stated {
  Shape shape = Shape::rectangular;
  Ratio relative{};   ///< "1 %" of the reading
  Q absolute{};       ///< "3 W/m2", "0.6 g"
  double digits = 0;  ///< "3 digits": so many steps of the display
  double degrees_of_freedom = std::numeric_limits<double>::infinity();
  SourceSpan origin;

  /// Standard uncertainty of the relative part.
  [[nodiscard]] double relative_u() const { return relative.si() / half_width_divisor(shape); }
  /// Standard uncertainty of the constant part [SI of Q].
  [[nodiscard]] Q constant_u() const;
  /// Standard uncertainty of the digits; `step` is the display's step.
  [[nodiscard]] Q digits_u(Q step) const;
  /// Standard uncertainty of the constant part and the digits together.
  [[nodiscard]] Q absolute_u(Q step) const;
};

/// A value with what is promised about its error.
template <class Q>
struct StatedValue {
  Q value{};
  Shape shape = Shape::rectangular;
  Q size{};  ///< half-width, or standard deviation for normal
  SourceSpan origin;
  double degrees_of_freedom = std::numeric_limits<double>::infinity();

  [[nodiscard]] double standard_u() const { return size.si() / half_width_divisor(shape); }
};

template <class Q>
Q Stated<Q>::constant_u() const {
  return absolute / half_width_divisor(shape);
}

template <class Q>
Q Stated<Q>::digits_u(Q step) const {
  return step * digits / half_width_divisor(shape);
}

template <class Q>
Q Stated<Q>::absolute_u(Q step) const {
  const double a = constant_u().si();
  const double d = digits_u(step).si();
  return Q::from_si(a == 0.0 ? d : (d == 0.0 ? a : __builtin_sqrt(a * a + d * d)));
}

}  // namespace hailwright
