#pragma once

#include <span>
#include <string_view>

#include "hailwright/core/citation.hpp"
#include "hailwright/core/quantity.hpp"

namespace hailwright {

/// A named relation between the diameter of a falling hailstone and its terminal speed.
struct FallSpeedFit {
  std::string_view name;
  std::string_view citation;
  ReadStatus status;
  /// V = factor * (D / 1 cm)^power, in m/s.
  double factor_mps;
  double power;
};

/// The named fits, none of them the default: an equivalent hailstone is always given as the range
/// over all of them.
std::span<const FallSpeedFit> fall_speed_fits();

/// Terminal speed of a stone of this diameter after one fit. Valid for 5 mm to 100 mm.
Speed fall_speed(const FallSpeedFit& fit, Length diameter);

/// A size name of the US weather service.
struct SizeName {
  Length diameter;
  std::string_view name;
};
std::span<const SizeName> size_names();
/// The name whose size is nearest in ratio.
const SizeName& nearest_size_name(Length diameter);

/// Density of pure ice at -10 degC [CRC Handbook as read; 0.9187 g/cm3], and the two ends outside
/// which a weighed and measured ball is not believable ice [0.87 to 0.93 g/cm3, ours].
struct IceDensity {
  static constexpr Density nominal = Density::from_si(917.0);
  static constexpr Density low = Density::from_si(870.0);
  static constexpr Density high = Density::from_si(930.0);
};

std::span<const Citation> hailstone_sources();

}  // namespace hailwright
