#pragma once

namespace hailwright {

/// Rounding of sums of lengths [ours]: a millionth of a millimetre.
inline constexpr double rounding_m = 1e-9;

/// Distances that differ by less tie [ours]: sums of lengths are rounded.
inline constexpr double tie_m = 1e-7;

}  // namespace hailwright
