#include "hailwright/metrology/random.hpp"

#include "hailwright/core/contract.hpp"
#include "metrology/random_kernels.hpp"
#include "metrology/ziggurat.hpp"

namespace hailwright {

using namespace detail;

namespace {

/// splitmix64 (Steele, Lea and Flood, 2014), by which the authors of xoshiro256++ seed it.
class SplitMix {
public:
  explicit SplitMix(std::uint64_t seed) : state_(seed) {}

  std::uint64_t next() {
    state_ += 0x9e3779b97f4a7c15ULL;
    std::uint64_t z = state_;
    z = (z ^ (z >> 30U)) * 0xbf58476d1ce4e5b9ULL;
    z = (z ^ (z >> 27U)) * 0x94d049bb133111ebULL;
    return z ^ (z >> 31U);
  }

private:
  std::uint64_t state_;
};

std::uint64_t seed_of_block(std::uint64_t seed, std::uint64_t block) {
  return SplitMix(SplitMix(seed).next() + block).next();
}

}  // namespace

RandomStream::RandomStream(std::uint64_t seed) {
  SplitMix words(seed);
  for (std::uint64_t& word : state_)
    word = words.next();
  for (std::size_t lane = 0; lane < RandomLanes::count; ++lane) {
    for (auto& word : lanes_.state)
      word[lane] = words.next();
  }
}

RandomStream::RandomStream(std::uint64_t seed, std::uint64_t block)
    : RandomStream(seed_of_block(seed, block)) {}

std::uint64_t RandomStream::bits() {
  return xoshiro_step(state_[0], state_[1], state_[2], state_[3]);
}

double RandomStream::uniform() {
  return open_unit(bits());
}

double RandomStream::normal() {
  return ziggurat().draw(bits(), *this);
}

double RandomStream::student_t(double degrees_of_freedom) {
  expects(degrees_of_freedom > 0.0, "student_t: degrees of freedom above 0");
  if (degrees_of_freedom > t_is_normal_above) return normal();
  const double unit = uniform();
  return StudentT(degrees_of_freedom)(unit, centred_unit(bits()));
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
