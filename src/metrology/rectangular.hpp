#pragma once

#include <cmath>

namespace hailwright {

/// Standard deviation of what lies anywhere within a half-width of its middle (GUM 4.3.7), in the
/// half-width's unit.
inline double rectangular(double half_width) {
  return half_width / std::sqrt(3.0);
}

}  // namespace hailwright
