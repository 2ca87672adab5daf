#pragma once

#include <algorithm>
#include <cstddef>
#include <cstring>

// Four doubles side by side, for sums over columns: two pairs, since a pair is what every 64-bit
// processor adds at once. The order of additions is fixed by the code, so that the bits are the
// same whatever instructions the compiler has for them.
namespace hailwright::detail {

inline constexpr std::size_t lanes = 4;

struct FourLanes {
  using Pair = double __attribute__((vector_size(16)));
  Pair low{}, high{};

  static FourLanes all(double value) { return {Pair{value, value}, Pair{value, value}}; }
  static FourLanes load(const double* from) {
    FourLanes x;
    std::memcpy(&x.low, from, sizeof x.low);
    std::memcpy(&x.high, from + 2, sizeof x.high);
    return x;
  }
  void store(double* to) const {
    std::memcpy(to, &low, sizeof low);
    std::memcpy(to + 2, &high, sizeof high);
  }

  FourLanes& operator+=(const FourLanes& other) { return *this = *this + other; }
  friend FourLanes operator+(const FourLanes& x, const FourLanes& y) {
    return {x.low + y.low, x.high + y.high};
  }
  friend FourLanes operator-(const FourLanes& x, const FourLanes& y) {
    return {x.low - y.low, x.high - y.high};
  }
  friend FourLanes operator*(const FourLanes& x, const FourLanes& y) {
    return {x.low * y.low, x.high * y.high};
  }
  friend FourLanes operator/(const FourLanes& x, const FourLanes& y) {
    return {x.low / y.low, x.high / y.high};
  }
};

/// Lane by lane; of a NaN and a number, `y`.
inline FourLanes lesser(const FourLanes& x, const FourLanes& y) {
  return {x.low < y.low ? x.low : y.low, x.high < y.high ? x.high : y.high};
}
inline FourLanes greater(const FourLanes& x, const FourLanes& y) {
  return {x.low > y.low ? x.low : y.low, x.high > y.high ? x.high : y.high};
}
/// Lane by lane `x` where it is above 0, else `y`.
inline FourLanes positive_or(const FourLanes& x, const FourLanes& y) {
  constexpr FourLanes::Pair zero{};
  return {x.low > zero ? x.low : y.low, x.high > zero ? x.high : y.high};
}

inline double total(const FourLanes& x) {
  return (x.low[0] + x.low[1]) + (x.high[0] + x.high[1]);
}
inline double least(const FourLanes& x) {
  return std::min(std::min(x.low[0], x.low[1]), std::min(x.high[0], x.high[1]));
}
inline double most(const FourLanes& x) {
  return std::max(std::max(x.low[0], x.low[1]), std::max(x.high[0], x.high[1]));
}

}  // namespace hailwright::detail
