#pragma once

#include <optional>

#include "hailwright/core/quantity.hpp"

namespace hailwright {

/// What decides whether a series can be shown to be at least at its grade. Shares of the value.
struct DeliveryQuestion {
  int places = 1;  ///< all of them must be struck by a hit not weaker; one hit each
  Ratio tolerance = percent(5);
  double launcher_scatter = 0.0;  ///< sd of true speeds from shot to shot
  /// Of the measurement, of the way to the panel and of the launcher's drift since the trials: all
  /// shots alike.
  double speed_shared_u = 0.0;
  double speed_own_u = 0.0;  ///< of one measurement; the floor of the trials' scatter (M13)
  double speed_hit_u = 0.0;  ///< of one hit, however its speed is measured: the angle it strikes at
  bool each_shot_measured = false;  ///< else by `trials` measured trial shots (M13)
  int trials = 0;                   ///< fewer than 5 support no grade: nothing is shown
  double mass_scatter = 0.0;        ///< sd of true masses from ball to ball
  double mass_shared_u = 0.0;       ///< of the scales
  double mass_own_u = 0.0;          ///< of one weighing, melting and so on
  /// Each ball is weighed, and thrown only when its mass is then shown to be within both sides of
  /// the tolerance, or, where the scales leave no such masses, to be not weaker with a reading not
  /// above the tolerance. Else `weighed_together` give their mean, and `mass_scatter` is stated.
  bool each_ball_weighed = false;
  int weighed_together = 10;
};

/// Probabilities for one aim, by simulation of whole series from a fixed seed.
struct DeliveryChance {
  double shown = 0.0;         ///< every place shown to be struck by a hit not weaker
  double truly = 0.0;         ///< every hit truly not below the tolerance
  double truly_within = 0.0;  ///< every hit truly within it on both sides
  double within = 0.0;        ///< every hit shown to be within on both sides
  /// Series in which no fitting ball came up in 50 for one throw; they count as not delivered.
  double without_balls = 0.0;
};

/// Standard error of a probability 0.5 from so many series: 0.5 %.
inline constexpr int delivery_series = 10'000;

/// Simulates whole series: true speeds and masses, their measurements (trial shots pooled as
/// `judge` pools them, ten balls weighed at once, or each shot and ball by itself), and the rule of
/// `judge` on each hit (evaluate/delivery.hpp, compare_quantity). Every hit lands in its place with
/// a diameter in its tolerance. Errors and scatters are normal.
/// @param speed_aim, mass_aim  true mean of the shots over the grade's figure, about 1; > 0
/// @param series               simulated, >= 1
DeliveryChance delivery_chance(const DeliveryQuestion& question, double speed_aim, double mass_aim,
                               int series = delivery_series);

/// What would raise the chance when no aim reaches it.
enum class DeliveryHelp {
  more_trials,       ///< 10 instead of fewer
  better_speed,      ///< half the uncertainty of the speed's measurement
  better_scales,     ///< half the uncertainty of the mass's measurement
  steadier_launcher  ///< half its scatter
};

/// Largest aims that are looked at [ours]. At 1.15 a hit carries 32 % more than the grade's energy;
/// a ball of 1.05 times the mass is 1.6 % wider, a third of a 5 % tolerance.
inline constexpr double largest_speed_aim = 1.15;
inline constexpr double largest_mass_aim = 1.05;

/// Where to aim so that the whole series is shown with the wanted chance (MEASUREMENT M10).
struct DeliveryAim {
  double speed_aim = 1.0;  ///< over the grade's speed, from 1.00 up to largest_speed_aim
  /// Over the grade's mass, from 1.00 up to largest_mass_aim or the tolerance; when balls are
  /// weighed one by one, the middle of the window they are chosen by.
  double mass_aim = 1.0;
  DeliveryChance chance;
  bool reached = false;  ///< the wanted chance is reached; else the aims are the largest
  std::optional<DeliveryHelp> help;   ///< what helps most, when it is not; nothing if nothing helps
  std::optional<double> help_chance;  ///< `shown` at the largest aims with that help, within 1 %
};

/// Of all pairs of aims in steps of 0.005 that reach the chance, the one with the least energy; all
/// aims meet the same simulated series.
/// @param wanted  above 0, below 1
DeliveryAim find_delivery_aim(const DeliveryQuestion& question, double wanted = 0.8);

}  // namespace hailwright
