#pragma once

#include <array>
#include <cstddef>
#include <cstdint>
#include <span>

#include "hailwright/metrology/stated.hpp"

namespace hailwright {

/// Eight xoshiro256++ side by side, from which arrays are filled several numbers at a time.
struct RandomLanes {
  static constexpr std::size_t count = 8;
  std::array<std::array<std::uint64_t, count>, 4> state{};
};

/// xoshiro256++ of Blackman and Vigna (2019, public domain), seeded through splitmix64. The same
/// seed gives the same numbers on every machine, down to the last bit: neither the standard
/// library's distributions nor its logarithm take part.
class RandomStream {
public:
  explicit RandomStream(std::uint64_t seed);
  /// The stream of one block of trials: blocks of one seed do not overlap but by chance, so that
  /// they may be made in any order and by any number of threads.
  RandomStream(std::uint64_t seed, std::uint64_t block);
  /// 64 random bits.
  std::uint64_t bits();
  /// Uniform in the open interval (0, 1): 2^52 numbers, each as far from 0 as another from 1.
  double uniform();
  /// Standard normal, by a ziggurat of 1024 layers (Marsaglia and Tsang, 2000) whose rectangles lie
  /// wholly below the curve (McFarland, 2016), so that 99.7 % of the draws need no comparison.
  double normal();
  /// Student's t with any degrees of freedom above 0, by the method of Bailey (1994). Above 1e8 it
  /// is drawn as normal, whose quantiles differ by less than 1e-7 there.
  double student_t(double degrees_of_freedom);
  /// Chi squared with a whole number of degrees of freedom, 1 or more.
  double chi_squared(int degrees_of_freedom);
  /// For `fill_standard`. They share no number with the draws above.
  RandomLanes& lanes() { return lanes_; }

private:
  std::array<std::uint64_t, 4> state_{};
  RandomLanes lanes_;
};

/// Fills with independent draws of one shape with mean 0 and standard deviation 1. For `normal`
/// with finite degrees of freedom: t as it is, whose standard deviation is larger (JCGM
/// 101:2008, 6.4.9); the other shapes do not heed them. Numbers are made in rows of eight: what a
/// last row leaves over is lost, so that a length divisible by eight is the quickest.
void fill_standard(RandomStream& random, Shape shape, double degrees_of_freedom,
                   std::span<double> values);

}  // namespace hailwright
