#include "hailwright/metrology/random.hpp"

#include <bit>
#include <cmath>

#include "hailwright/core/contract.hpp"

namespace hailwright {

RandomStream::RandomStream(std::uint64_t seed) {
  for (std::uint64_t& word : state_) {
    seed += 0x9e3779b97f4a7c15ULL;
    std::uint64_t z = seed;
    z = (z ^ (z >> 30U)) * 0xbf58476d1ce4e5b9ULL;
    z = (z ^ (z >> 27U)) * 0x94d049bb133111ebULL;
    word = z ^ (z >> 31U);
  }
}

std::uint64_t RandomStream::bits() {
  const std::uint64_t result = std::rotl(state_[0] + state_[3], 23) + state_[0];
  const std::uint64_t t = state_[1] << 17U;
  state_[2] ^= state_[0];
  state_[3] ^= state_[1];
  state_[1] ^= state_[2];
  state_[0] ^= state_[3];
  state_[2] ^= t;
  state_[3] = std::rotl(state_[3], 45);
  return result;
}

double RandomStream::uniform() {
  return (static_cast<double>(bits() >> 11U) + 0.5) * 0x1.0p-53;
}

double RandomStream::normal() {
  if (has_spare_) {
    has_spare_ = false;
    return spare_;
  }
  double u = 0.0;
  double v = 0.0;
  double s = 0.0;
  do {
    u = 2.0 * uniform() - 1.0;
    v = 2.0 * uniform() - 1.0;
    s = u * u + v * v;
  } while (s >= 1.0 || s == 0.0);
  const double factor = std::sqrt(-2.0 * std::log(s) / s);
  spare_ = v * factor;
  has_spare_ = true;
  return u * factor;
}

double RandomStream::chi_squared(int degrees_of_freedom) {
  expects(degrees_of_freedom >= 1, "chi_squared: at least one degree of freedom");
  double sum = 0.0;
  for (int i = 0; i < degrees_of_freedom; ++i) {
    const double z = normal();
    sum += z * z;
  }
  return sum;
}

}  // namespace hailwright
