#pragma once

#include <array>
#include <cmath>
#include <cstddef>

namespace hailwright {

/// A number that carries its partial derivatives by N variables: forward automatic
/// differentiation. A formula written once for any number type gives, with this one, its
/// sensitivities exact to rounding (JCGM 100:2008, 5.1.3 needs them; differences would not be).
template <std::size_t N>
struct Dual {
  double value = 0.0;
  std::array<double, N> slope{};

  constexpr Dual() = default;
  constexpr Dual(double v) : value(v) {}  // NOLINT(google-explicit-constructor): constants mix in
  /// The i-th variable at this value.
  static constexpr Dual variable(double v, std::size_t i) {
    Dual d(v);
    d.slope[i] = 1.0;
    return d;
  }
};

namespace detail {
template <std::size_t N>
constexpr Dual<N> chain(double value, const Dual<N>& a, double da) {
  Dual<N> r(value);
  for (std::size_t i = 0; i < N; ++i)
    r.slope[i] = da * a.slope[i];
  return r;
}
template <std::size_t N>
constexpr Dual<N> chain(double value, const Dual<N>& a, double da, const Dual<N>& b, double db) {
  Dual<N> r(value);
  for (std::size_t i = 0; i < N; ++i)
    r.slope[i] = da * a.slope[i] + db * b.slope[i];
  return r;
}
}  // namespace detail

template <std::size_t N>
constexpr Dual<N> operator+(const Dual<N>& a, const Dual<N>& b) {
  return detail::chain(a.value + b.value, a, 1.0, b, 1.0);
}
template <std::size_t N>
constexpr Dual<N> operator-(const Dual<N>& a, const Dual<N>& b) {
  return detail::chain(a.value - b.value, a, 1.0, b, -1.0);
}
template <std::size_t N>
constexpr Dual<N> operator*(const Dual<N>& a, const Dual<N>& b) {
  return detail::chain(a.value * b.value, a, b.value, b, a.value);
}
template <std::size_t N>
constexpr Dual<N> operator+(const Dual<N>& a, double b) {
  return detail::chain(a.value + b, a, 1.0);
}
template <std::size_t N>
constexpr Dual<N> operator+(double a, const Dual<N>& b) {
  return b + a;
}
template <std::size_t N>
constexpr Dual<N> operator-(const Dual<N>& a, double b) {
  return a + (-b);
}
template <std::size_t N>
constexpr Dual<N> operator*(const Dual<N>& a, double b) {
  return detail::chain(a.value * b, a, b);
}
template <std::size_t N>
constexpr Dual<N> operator*(double a, const Dual<N>& b) {
  return b * a;
}
template <std::size_t N>
constexpr Dual<N> operator-(double a, const Dual<N>& b) {
  return a + b * -1.0;
}
template <std::size_t N>
constexpr Dual<N> operator/(const Dual<N>& a, double b) {
  return a * (1.0 / b);
}
template <std::size_t N>
Dual<N> log(const Dual<N>& a) {
  return detail::chain(std::log(a.value), a, 1.0 / a.value);
}

}  // namespace hailwright
