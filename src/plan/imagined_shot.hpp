#pragma once

#include <optional>

#include "hailwright/evaluate/defaults.hpp"
#include "hailwright/evaluate/delivery.hpp"
#include "hailwright/model/protocol.hpp"
#include "hailwright/physics/air.hpp"
#include "hailwright/physics/speed.hpp"
#include "hailwright/plan/delivery_aim.hpp"

namespace hailwright {

/// One shot of a series as `judge` would take it: exactly at the target, weighed and measured as
/// the protocol says. The plan and the judgement rest on the same code.
struct ImaginedShot {
  std::optional<ShotQuantity> mass;   ///< at the impact
  std::optional<ShotQuantity> speed;  ///< along the normal of the panel
  Slowing slowing;                    ///< from where the speed is measured to the panel
  double speed_kept = 1.0;            ///< of the speed as measured: slowing and angle of hit
  double mass_kept = 1.0;             ///< of the mass as weighed: what has melted on average
  DeliveryQuestion question;
  int trials = 0;
};

/// @param panels_air  the air of the place, where the protocol states its altitude
ImaginedShot imagine_shot(const Protocol& protocol, std::size_t series, Ratio tolerance,
                          const std::optional<Air>& air, Assumptions& assumptions);

/// Air of the place when the protocol states altitude or temperature; nothing when neither.
std::optional<Air> stated_air(const Launch& launch);

}  // namespace hailwright
