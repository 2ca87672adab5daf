#pragma once

#include <span>
#include <string_view>

#include "hailwright/core/citation.hpp"
#include "hailwright/core/quantity.hpp"

namespace hailwright {

/// A named relation between the diameter of a falling hailstone and its terminal speed.
struct FallSpeedFit {
  std::string_view name;
  std::string_view citation;  ///< id of a Citation
  ReadStatus status;
  /// V = factor * (D / 1 cm)^power, in m/s.
  double factor_mps;
  double power;
};

/// The named fits, none of them the default: an equivalent hailstone is always given as the range
/// over all of them.
std::span<const FallSpeedFit> fall_speed_fits();

/// Sizes for which the fits are offered [ours; citation "fall-speed-range"]. Outside, the power law
/// still gives a number, and the caller says that it is extrapolated.
struct FallSpeedRange {
  static constexpr Length low = Length::from_si(0.005);
  static constexpr Length high = Length::from_si(0.100);
};

/// Terminal speed of a stone of this diameter after one fit, near the ground (about 1.2 kg/m3).
/// @param diameter  largest diameter of the stone, > 0 (contract); see FallSpeedRange
/// Source: the fit's citation.   Checked in: tests/reference/fall_speed_fits_test.cpp
Speed fall_speed(const FallSpeedFit& fit, Length diameter);

/// A size name of the US weather service, smallest first (citation "nws-hail-sizes").
struct SizeName {
  Length diameter;
  std::string_view name;
};
std::span<const SizeName> size_names();
/// The name whose size is nearest in ratio; the smaller one when two are equally near.
/// @param diameter  > 0 (contract)
const SizeName& nearest_size_name(Length diameter);

/// The density taken for a ball that was measured but not weighed [clear ice, 917 kg/m3: CRC
/// Handbook as read prints 0.9167 g/cm3 at 0 degC, 0.9187 at -10 degC; citation
/// "crc-ice-density"], and the two ends outside which a weighed and measured ball is not believable
/// ice [0.87 to 0.93 g/cm3, ours; citation "ice-density-band"].
struct IceDensity {
  static constexpr Density nominal = Density::from_si(917.0);
  static constexpr Density low = Density::from_si(870.0);
  static constexpr Density high = Density::from_si(930.0);
};

/// Every citation that rows of this file name.
std::span<const Citation> hailstone_sources();

}  // namespace hailwright
