#pragma once

namespace hailwright::detail {

/// Adds to a sum and keeps what rounding lost in `rest`: the exact error of one addition. Number is
/// a double or several beside each other.
/// Source: Knuth, The Art of Computer Programming, vol. 2, 4.2.2, theorem B (from memory).
template <class Number>
inline void add_compensated(Number& sum, Number& rest, const Number& value) {
  const Number next = sum + value;
  const Number added = next - sum;
  rest += (sum - (next - added)) + (value - added);
  sum = next;
}

}  // namespace hailwright::detail
