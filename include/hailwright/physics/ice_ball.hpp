#pragma once

#include <optional>
#include <vector>

#include "hailwright/core/quantity.hpp"
#include "hailwright/metrology/estimate.hpp"

namespace hailwright {

/// Mass of a sphere [kg]; relative u is that of the density and three times that of the diameter.
Estimate<Mass> mass_of_sphere(const Estimate<Length>& diameter, const Estimate<Density>& density);

/// Density that a weighed and measured ball would have if it were a sphere, 6 m / (pi d^3).
Estimate<Density> implied_density(const Estimate<Mass>& mass, const Estimate<Length>& diameter);

/// Whether a density can be that of an ice ball: 0.87 to 0.93 g/cm3 [ours; tables/hailstones.hpp].
bool believable_ice(Density density);

/// What a ball of clear ice of this diameter weighs, at IceDensity::nominal. diameter > 0.
Mass target_mass(Length diameter);

/// The change of the diameter that changes the mass of a ball by this share, at one density: 5 % of
/// mass are 1.6 % of diameter, so that the mass is the tight one of two equal tolerances.
/// @param mass  over -1
Ratio diameter_share(Ratio mass);

/// Upper bound of the share of a ball's mass that melts while it is out of the freezer, when it is
/// at 0 degC already: 6 h dT t / (rho d Lf), with h = 25 W/(m2 K), a light wind. A colder ball
/// melts less. Derivation: heat through the surface of a sphere against the heat of fusion.
/// @param out       time between freezer and impact, >= 0
/// @param diameter  of the ball, > 0
/// @param air       over the melting point; below it nothing melts
/// Checked value, computed beforehand: 25 mm, 60 s, 22 K: 2.6 %.
Ratio largest_melt(Time out, Length diameter, TemperaturePoint air);

/// Time constant with which a ball below 0 degC takes the temperature of still air around it, be it
/// out of the freezer or moved into a store: rho c d / (6 h), h = 10 W/(m2 K). Derivation: one
/// temperature for the whole ball, since ice conducts far better than the air film.
/// Wind or a hand is faster. diameter > 0.
Time warming_time(Length diameter);

/// Share of the way from its own temperature to that of the air which a ball has gone after a time,
/// 1 - exp(-t / warming_time). It ends at 0 degC, where a ball melts instead of warming.
/// @param out  >= 0
Ratio warmed_share(Time out, Length diameter);

/// Largest roundness of a ball that is thrown [ours, no published figure].
inline constexpr Ratio largest_roundness = percent(5);

/// (largest - smallest) / mean of diameters in two or more directions; nothing for fewer.
std::optional<Ratio> roundness(const std::vector<Length>& diameters);

/// What a ball must measure to be thrown, ends included.
struct BallLimits {
  Mass mass_low, mass_high;
  Length diameter_low, diameter_high;
  Ratio roundness_max = largest_roundness;
};

/// The limits that a tolerance on mass and diameter makes by itself, without room for the errors of
/// the scales (plan/ball_window.hpp has that).
/// @param tolerance  0 or more, below 1
BallLimits ball_limits(Mass mass, Length diameter, Ratio tolerance);

/// A ball as it was looked at. What was not measured or not looked for is unknown.
struct BallMeasured {
  std::optional<Mass> mass;
  std::vector<Length> diameters;  ///< of one ball, in two or three directions; each > 0
  std::optional<bool> crack;      ///< one visible to the naked eye
};

/// Why a ball is not thrown, or what is doubtful about it.
enum class BallFault {
  cracked,
  not_round,
  too_light,
  too_heavy,
  too_small,
  too_large,
  no_diameter,        ///< without it no hit counts as "at least at the grade" (M10)
  no_mass,            ///< doubt: one of several weighed together
  one_diameter,       ///< doubt: says nothing about its roundness
  crack_not_checked,  ///< doubt
  not_like_ice        ///< doubt: of mass and diameter one is wrong, or the ball has air in it
};

/// What check_ball found.
struct BallCheck {
  std::vector<BallFault> rejects;  ///< any of them: not thrown
  std::vector<BallFault> doubts;
  std::optional<Length> diameter;  ///< mean over the directions
  std::optional<Ratio> roundness;
  std::optional<Density> density;
  [[nodiscard]] bool accepted() const { return rejects.empty(); }
};

/// Looks at one ball before it is thrown. The mean diameter counts. Rejected for a visible crack
/// and for mass or diameter outside the limits [IEC 61215 as read in a secondary source: no crack
/// visible to the naked eye, diameter and mass within 5 %], and when it is not round [ours].
/// The density only warns: its band is ours.
BallCheck check_ball(const BallMeasured& ball, const BallLimits& limits);

}  // namespace hailwright
