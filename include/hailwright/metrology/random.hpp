#pragma once

#include <array>
#include <cstdint>

namespace hailwright {

/// xoshiro256++ of Blackman and Vigna (2019, public domain), seeded through splitmix64. The same
/// seed gives the same numbers on every machine; the standard library's distributions do not.
class RandomStream {
public:
  explicit RandomStream(std::uint64_t seed);
  /// 64 random bits.
  std::uint64_t bits();
  /// Uniform in the open interval (0, 1).
  double uniform();
  /// Standard normal, by the polar method of Marsaglia.
  double normal();
  /// Chi squared with a whole number of degrees of freedom, 1 or more.
  double chi_squared(int degrees_of_freedom);

private:
  std::array<std::uint64_t, 4> state_{};
  double spare_ = 0.0;
  bool has_spare_ = false;
};

}  // namespace hailwright
