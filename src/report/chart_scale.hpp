#pragma once

#include <span>
#include <string>
#include <vector>

namespace hailwright::detail {

/// Two ends of a stretch: of values, or of units of a picture.
struct Ends {
  double low = 0.0;
  double high = 0.0;
  [[nodiscard]] double length() const { return high - low; }
  [[nodiscard]] bool holds(double value) const { return low <= value && value <= high; }
};

/// The least and the largest of the values. Contract: one or more, all finite.
Ends ends_of(std::span<const double> values);

/// Values of an axis as units of a picture.
class Scale {
public:
  enum class Kind { linear, logarithmic };

  /// From `values.low` at `units.from` to `values.high` at `units.to`; of a vertical axis `from` is
  /// the lower edge, whose units are the larger ones.
  /// Contract: values.low < values.high, and both above zero for a logarithmic one.
  Scale(Kind kind, Ends values, double from, double to);

  [[nodiscard]] Kind kind() const { return kind_; }
  [[nodiscard]] Ends values() const { return values_; }
  [[nodiscard]] double from() const { return from_; }
  [[nodiscard]] double to() const { return to_; }
  /// Where a value lies; beyond the ends of the axis too. Contract: above zero if logarithmic.
  [[nodiscard]] double at(double value) const;
  /// The same, kept within the axis; values without a place (zero on a logarithmic axis) at its low
  /// end.
  [[nodiscard]] double clipped(double value) const;

private:
  Kind kind_;
  Ends values_;
  double from_, to_;
};

/// An axis that shows all these values with air at both ends: a twentieth of their stretch, on a
/// logarithmic axis of its length. Values that are all alike get a stretch of their own: a tenth of
/// the value, or 1 around zero. Contract as of `ends_of`; above zero for the logarithmic one.
Scale linear_scale(std::span<const double> values, double from, double to);
Scale log_scale(std::span<const double> values, double from, double to);

/// A figure on an axis; a small mark without one where the label is empty.
struct Tick {
  double value = 0.0;
  std::string label;
};

/// Round values inside the axis in rising order. Linear: steps of 1, 2 or 5 times a power of ten,
/// as many as `most` allows. Logarithmic: powers of ten, with their 2 and 5 times where they fit
/// and every second, third, ... power where they do not; where that leaves fewer than three
/// figures, the linear ones. Labels have the fewest digits that tell them apart; from 10^7 on and
/// below 10^-6 they are written as 2e-9. `most` is the number of labels that there is room for, 2
/// or more.
std::vector<Tick> ticks(const Scale& scale, int most);

}  // namespace hailwright::detail
