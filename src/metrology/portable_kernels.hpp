#pragma once

#include <array>
#include <bit>
#include <cstddef>
#include <cstdint>

// Elementary functions without a branch and without a call, to be inlined into loops that the
// compiler turns into vector instructions. Polynomials are those that agree with the function at
// the Chebyshev nodes of the range, computed with 80 decimal digits [ours]; what is left out is
// said beside each, and what comes out is held against the C library in the tests.
namespace hailwright::detail {

constexpr std::uint64_t bits_of_one = 0x3ff0000000000000;
constexpr std::uint64_t mantissa_bits = 0x000fffffffffffff;

// ln 2 in two parts: the first has 32 bits, so that its product with an exponent is exact.
constexpr double ln2_high = 0x1.62e42feep-1;
constexpr double ln2_low = 0x1.a39ef35793c76p-33;

/// c[0] + c[1] x + ..., even and odd powers apart: two short chains are quicker than a long one.
template <std::size_t n>
[[gnu::always_inline]] inline double polynomial(double x, const std::array<double, n>& c) {
  static_assert(n >= 4);
  const double square = x * x;
  double last = c[n - 1];
  double but_last = c[n - 2];
  for (std::size_t i = n - 1; i > 2; i -= 2) {
    last = last * square + c[i - 2];
    but_last = but_last * square + c[i - 3];
  }
  if constexpr (n % 2 == 0) return but_last + x * last;
  // The chain of the highest power is one step short of the constant.
  return (last * square + c[0]) + x * but_last;
}

/// Natural logarithm of a normal positive number: x = 2^k m with m between sqrt(1/2) and sqrt(2),
/// ln m = 2 artanh(s) with s = f/(2 + f), f = m - 1. As f - s (f - ...) its largest term is exact.
[[gnu::always_inline]] inline double log_kernel(double x) {
  constexpr std::uint64_t sqrt_half = 0x3fe6a09e667f3bcd;
  // 2 (artanh(s)/s - 1)/s^2 as a polynomial in s^2; relative error of ln m below 2^-57.
  constexpr std::array<double, 7> tail{
      0x1.5555555555558p-1, 0x1.99999999952e2p-2, 0x1.2492492df148dp-2, 0x1.c71c62e5800a1p-3,
      0x1.7462b4ab2ef6bp-3, 0x1.39fe606542ddep-3, 0x1.2b584aae78a57p-3};
  const std::uint64_t shifted = std::bit_cast<std::uint64_t>(x) + (bits_of_one - sqrt_half);
  // A whole number below 2^52 stands in the last bits of itself plus 2^52.
  const double k = std::bit_cast<double>((shifted >> 52U) | 0x4330000000000000) - (0x1p52 + 1023);
  const auto m = std::bit_cast<double>((shifted & mantissa_bits) + sqrt_half);
  const double f = m - 1.0;
  const double s = f / (2.0 + f);
  const double z = s * s;
  const double less = s * (f - z * polynomial(z, tail));
  return k * ln2_high - ((less - k * ln2_low) - f);
}

/// e^x for |x| <= 700: x = k ln 2 + r, |r| <= ln(2)/2.
[[gnu::always_inline]] inline double exp_kernel(double x) {
  constexpr double log2_e = 0x1.71547652b82fep+0;
  // (e^r - 1 - r)/r^2; relative error of e^r below 2^-55.
  constexpr std::array<double, 10> tail{
      0x1.0000000000001p-1,  0x1.5555555555556p-3,  0x1.5555555553d63p-5,  0x1.11111111109b3p-7,
      0x1.6c16c1788bd90p-10, 0x1.a01a01a7c41d5p-13, 0x1.a019b90d2ae7ap-16, 0x1.71de0dae63bb3p-19,
      0x1.289185613a3d6p-22, 0x1.af38a9b0ec855p-26};
  // Adding 1.5 * 2^52 rounds to a whole number and leaves it in the last bits.
  const double shifted = x * log2_e + 0x1.8p52;
  const double k = shifted - 0x1.8p52;
  const double r = (x - k * ln2_high) - k * ln2_low;
  const auto two_to_k =
      std::bit_cast<double>((std::bit_cast<std::uint64_t>(shifted) << 52U) + bits_of_one);
  return (1.0 + (r + r * r * polynomial(r, tail))) * two_to_k;
}

/// sin(pi t) for |t| <= 1/2.
[[gnu::always_inline]] inline double sine_of_half_turns(double t) {
  // sin(pi t)/t as a polynomial in t^2; absolute error of the sine below 2^-54.
  constexpr std::array<double, 9> series{
      0x1.921fb54442d18p+1,  -0x1.4abbce625be52p+2,  0x1.466bc6775aa7dp+1,
      -0x1.32d2cce627c86p-1, 0x1.5078348551854p-4,   -0x1.e3074dfaf87afp-8,
      0x1.e8f3675ee37ddp-12, -0x1.6f7acdb8f6580p-16, 0x1.9d462020fcc78p-21};
  return t * polynomial(t * t, series);
}

}  // namespace hailwright::detail
