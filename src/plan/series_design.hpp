#pragma once

#include <optional>
#include <vector>

#include "hailwright/plan/test_plan.hpp"
#include "plan/imagined_shot.hpp"

namespace hailwright {

/// A series with all that the plan works out for it, before it is known what may be shown.
struct SeriesDesign {
  const SeriesPlan* plan = nullptr;
  ImaginedShot shot;
  SeriesOutlook outlook;
  LaunchSeries launch;
  Speed upper_speed;  ///< fastest at the muzzle that safety reckons with (MEASUREMENT M16)
};

/// The air that a plan reckons with.
struct PlanAir {
  std::optional<Air> stated;  ///< by the protocol's altitude or temperature
  /// Of the stated air, else of the standard atmosphere at sea level.
  [[nodiscard]] Air to_fly_in() const { return stated.value_or(standard_air(Length{})); }
  /// Density that slows a ball on its way to the panel: as `judge` takes it.
  [[nodiscard]] Density slowing() const { return stated ? stated->density : defaults::air_density; }
};

/// A launcher is faster than it is set by up to this, where only a nominal figure is known
/// (MEASUREMENT M16) [ours].
inline constexpr double nominal_excess = 1.25;

/// Fastest muzzle speed that is planned with [ours]: as much as `launch: fastest` may say.
inline constexpr Speed fastest_believable = Speed::from_si(200.0);

/// Distance from the launcher to the panel, or the default for one that is not stated.
Length launch_distance(const Launch& launch);

/// Speed at the muzzle of a ball that has this one at the panel, with one drag coefficient.
Speed speed_at_muzzle(Speed at_panel, const Target& target, const Launch& launch, Density air,
                      double coefficient);

/// Aims that were found already: the same question has the same answer, and series of a protocol
/// often ask the same one.
struct KnownAim {
  DeliveryQuestion question;
  DeliveryAim aim;
};
using KnownAims = std::vector<KnownAim>;

/// Works a series out. Contract: the muzzle speeds are finite, a drop has a height.
/// @param known  aims of series before this one; those that are found are added
SeriesDesign design_series(const Protocol& protocol, std::size_t series, const PlanAir& air,
                           Assumptions& assumptions, KnownAims& known);

}  // namespace hailwright
