#pragma once

#include <map>
#include <optional>
#include <string>

#include "hailwright/evaluate/delivery.hpp"

namespace hailwright {

/// What is known of the balls and of the speeds of a record, ready to be asked shot by shot.
class ShotStrength {
public:
  ShotStrength(const Test& test, Assumptions& assumptions)
      : test_(test), assumptions_(assumptions) {}

  /// Mean diameter of the ball thrown: its own, or that of its kind.
  [[nodiscard]] std::optional<Length> diameter(const Shot& shot) const;
  /// Mass at the impact.
  std::optional<ShotQuantity> mass(const Shot& shot);
  /// Speed at the panel.
  std::optional<ShotQuantity> speed(const Shot& shot);
  /// Trial shots at a setting; nothing for fewer than two.
  std::optional<TrialSpeeds> trials(const std::string& setting);
  /// How a ball of this series slows from where its speed is known to the panel.
  Slowing slowing(Mass mass, Length diameter);

private:
  [[nodiscard]] std::vector<const BallKind*> balls_of(const Shot& shot) const;
  std::optional<ShotQuantity> mass_at_freezer(const Shot& shot);
  /// @param weighings  so many readings of the scales
  /// @param total      gave this mass together
  ShotQuantity weighed(Mass mass, int weighings, Mass total);
  std::optional<ShotQuantity> weighed_kind(const Shot& shot);
  [[nodiscard]] bool is_the_very_ball(const Shot& shot,
                                      const std::vector<const BallKind*>& balls) const;
  Mass scales_step();
  std::optional<ShotQuantity> speed_measured(const Shot& shot);
  double shared_speed_u(Speed speed);
  void add_angle(const Shot& shot, ShotQuantity& speed);
  [[nodiscard]] std::optional<Speed> trial_speed(const Trial& trial) const;

  const Test& test_;
  Assumptions& assumptions_;
};

}  // namespace hailwright
