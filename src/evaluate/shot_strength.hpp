#pragma once

#include <optional>
#include <string>
#include <vector>

#include "hailwright/evaluate/delivery.hpp"
#include "hailwright/evaluate/speed_errors.hpp"

namespace hailwright {

/// Errors of the tools that weigh and measure balls: as stated, else the defaults.
Stated<Mass> scales_error(const Tools& tools);
Stated<Length> calipers_error(const Tools& tools);
/// Step of the calipers; a tenth of a millimetre where it is not stated [common practice, no
/// source].
Length calipers_step(const Tools& tools);

/// What is known of the balls and of the speeds of a record, ready to be asked shot by shot. Masses
/// are in shot_strength.cpp, speeds in shot_speed.cpp.
class ShotStrength {
public:
  ShotStrength(const Test& test, Assumptions& assumptions)
      : test_(test), assumptions_(assumptions) {}

  /// Mean diameter of the ball thrown: its own, or that of its kind.
  [[nodiscard]] std::optional<Length> diameter(const Shot& shot) const;
  /// Mass at the impact.
  std::optional<ShotQuantity> mass(const Shot& shot);
  /// Speed at the panel, along its normal.
  std::optional<ShotQuantity> speed(const Shot& shot);
  /// The same where the mass is known already, or known to be unknown.
  std::optional<ShotQuantity> speed(const Shot& shot, const std::optional<ShotQuantity>& mass);
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
  /// Where the speed is measured.
  std::optional<ShotQuantity> speed_measured(const Shot& shot);
  std::optional<ShotQuantity> speed_of_trials(const Shot& shot);
  /// Of a drop or by the launcher's setting: at the panel already.
  std::optional<ShotQuantity> speed_unmeasured(const Shot& shot, const FlyingBall& ball);
  [[nodiscard]] FlightAir air() const;
  /// Standard uncertainty of one trial from its counting or display, as a share of the mean.
  double trial_step(const std::vector<const Trial*>& trials, const std::vector<Speed>& speeds);
  void add_angle(const Shot& shot, ShotQuantity& speed);

  const Test& test_;
  Assumptions& assumptions_;
};

}  // namespace hailwright
