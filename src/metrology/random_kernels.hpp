#pragma once

#include <array>
#include <bit>
#include <cmath>
#include <cstddef>
#include <cstdint>

#include "hailwright/metrology/random.hpp"
#include "metrology/portable_kernels.hpp"

namespace hailwright::detail {

/// One step of xoshiro256++ (Blackman and Vigna, 2019).
[[gnu::always_inline]] inline std::uint64_t xoshiro_step(std::uint64_t& a, std::uint64_t& b,
                                                         std::uint64_t& c, std::uint64_t& d) {
  const std::uint64_t result = std::rotl(a + d, 23) + a;
  const std::uint64_t t = b << 17U;
  c ^= a;
  d ^= b;
  b ^= c;
  a ^= d;
  c ^= t;
  d = std::rotl(d, 45);
  return result;
}

/// The upper 52 bits as a number in [1, 2): exact, and without a conversion from integers.
[[gnu::always_inline]] inline double one_to_two(std::uint64_t word) {
  return std::bit_cast<double>((word >> 12U) | bits_of_one);
}

/// (n + 1/2)/2^52 with n the upper 52 bits: exact, never 0 or 1.
[[gnu::always_inline]] inline double open_unit(std::uint64_t word) {
  return one_to_two(word) - (1.0 - 0x1p-53);
}

/// n/2^52 - 1/2.
[[gnu::always_inline]] inline double centred_unit(std::uint64_t word) {
  return one_to_two(word) - 1.5;
}

/// Degrees of freedom above which t is drawn as normal: its quantiles z (1 + (z^2 + 1)/(4 nu))
/// differ by less than 1e-7 there, while the method loses digits.
constexpr double t_is_normal_above = 1e8;

/// t from a number in (0, 1) and one in [-1/2, 1/2): Bailey's generalisation of the method of Box
/// and Muller, sqrt(nu (u^(-2/nu) - 1)) cos(2 pi v); the sine of a half turn has the distribution
/// of that cosine.
class StudentT {
public:
  explicit StudentT(double degrees_of_freedom)
      : degrees_of_freedom_(degrees_of_freedom), power_(-2.0 / degrees_of_freedom),
        least_unit_(degrees_of_freedom < 0.2 ? exp_kernel(-350.0 * degrees_of_freedom) : 0.0) {}

  [[gnu::always_inline]] double operator()(double unit, double centred) const {
    const double u = unit > least_unit_ ? unit : least_unit_;
    const double growth = exp_kernel(log_kernel(u) * power_) - 1.0;
    return std::sqrt(degrees_of_freedom_ * growth) * sine_of_half_turns(centred);
  }

private:
  double degrees_of_freedom_;
  double power_;
  /// Holds u^(-2/nu) below e^700, which it can only reach for nu below 0.11.
  double least_unit_;
};

/// Writes `rows` rows of what `number` makes out of one word each: lane l of the lanes gives column
/// l of every row, whatever the width of the vectors.
template <class Width, class T, class Number>
[[gnu::always_inline]] inline void fill_rows(Width /*unused*/, RandomLanes& lanes,
                                             T* __restrict out, std::size_t rows, Number number) {
  constexpr std::size_t width = Width::value;
  static_assert(RandomLanes::count % width == 0);
  for (std::size_t first = 0; first < RandomLanes::count; first += width) {
    // NOLINTNEXTLINE(cppcoreguidelines-pro-type-member-init): filled before it is read
    std::array<std::array<std::uint64_t, width>, 4> s;
    for (std::size_t word = 0; word < 4; ++word)
      for (std::size_t l = 0; l < width; ++l)
        s[word][l] = lanes.state[word][first + l];
    for (std::size_t row = 0; row < rows; ++row) {
      T* __restrict const here = out + row * RandomLanes::count + first;
// Left as a loop it becomes one vector instruction for each operation, with the state in registers.
#pragma GCC unroll 1
      for (std::size_t l = 0; l < width; ++l)
        here[l] = number(xoshiro_step(s[0][l], s[1][l], s[2][l], s[3][l]));
    }
    for (std::size_t word = 0; word < 4; ++word)
      for (std::size_t l = 0; l < width; ++l)
        lanes.state[word][first + l] = s[word][l];
  }
}

}  // namespace hailwright::detail
