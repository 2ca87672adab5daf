#pragma once

#include <span>

#include "hailwright/core/quantity.hpp"
#include "hailwright/metrology/estimate.hpp"
#include "hailwright/tables/hailstones.hpp"

namespace hailwright {

/// Kinetic energy, half the mass times the speed squared. Mass and speed are measured apart, so
/// their relative uncertainties combine as u_E^2 = u_m^2 + (2 u_v)^2 (JCGM 100:2008, 5.1.6).
Estimate<Energy> kinetic_energy(const Estimate<Mass>& mass, const Estimate<Speed>& speed);

/// Mass times speed.
Estimate<Momentum> momentum(const Estimate<Mass>& mass, const Estimate<Speed>& speed);

/// Share of the energy that acts along the normal of the panel, cos^2 of the angle from the normal.
/// Common practice, no source; neglects friction and shattering. 0 <= angle < 90 deg.
Ratio normal_energy_share(Angle from_normal);

/// Energy over the ball's cross-section.
EnergyPerArea energy_per_cross_section(Energy energy, Length diameter);

/// Diameter of the freely falling hailstone (a sphere of 0.917 g/cm3 at its terminal speed) that
/// carries this energy after one fit. Energy > 0.
Length equal_energy_hailstone(Energy energy, const FallSpeedFit& fit);

/// The smallest and the largest of them over all named fits: an equivalent is a range, never one.
struct HailstoneRange {
  Length smallest;
  Length largest;
};
HailstoneRange equal_energy_hailstones(Energy energy);

}  // namespace hailwright
