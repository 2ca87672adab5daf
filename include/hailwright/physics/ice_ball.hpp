#pragma once

#include "hailwright/core/quantity.hpp"
#include "hailwright/metrology/estimate.hpp"

namespace hailwright {

/// Mass of a sphere [kg]; relative u is that of the density and three times that of the diameter.
Estimate<Mass> mass_of_sphere(const Estimate<Length>& diameter, const Estimate<Density>& density);

/// Density that a weighed and measured ball would have if it were a sphere, 6 m / (pi d^3).
Estimate<Density> implied_density(const Estimate<Mass>& mass, const Estimate<Length>& diameter);

/// Whether a density can be that of an ice ball: 0.87 to 0.93 g/cm3 [ours; tables/hailstones.hpp].
bool believable_ice(Density density);

/// Upper bound of the share of a ball's mass that melts while it is out of the freezer, when it is
/// at 0 degC already: 6 h dT t / (rho d Lf), with h = 25 W/(m2 K), a light wind. A colder ball
/// melts less. Derivation: heat through the surface of a sphere against the heat of fusion.
/// @param out       time between freezer and impact, >= 0
/// @param diameter  of the ball, > 0
/// @param air       over the melting point; below it nothing melts
/// Checked value, computed beforehand: 25 mm, 60 s, 22 K: 2.6 %.
Ratio largest_melt(Time out, Length diameter, TemperaturePoint air);

}  // namespace hailwright
