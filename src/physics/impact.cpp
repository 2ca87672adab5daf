#include "hailwright/physics/impact.hpp"

#include <algorithm>
#include <cmath>
#include <numbers>

#include "hailwright/core/contract.hpp"
#include "hailwright/metrology/budget.hpp"

namespace hailwright {

namespace {

/// Relative uncertainty and degrees of freedom of a product m^1 v^power.
template <class Q>
Estimate<Q> product(double value, const Estimate<Mass>& mass, const Estimate<Speed>& speed,
                    double power) {
  expects(mass.value.si() > 0.0 && speed.value.si() > 0.0, "an impact needs mass and speed");
  const Combined u = combine(Combined{mass.relative_u(), mass.degrees_of_freedom},
                             Combined{power * speed.relative_u(), speed.degrees_of_freedom});
  return {Q::from_si(value), Q::from_si(value * u.standard_u), u.degrees_of_freedom};
}

}  // namespace

Estimate<Energy> kinetic_energy(const Estimate<Mass>& mass, const Estimate<Speed>& speed) {
  const double v = speed.value.si();
  return product<Energy>(0.5 * mass.value.si() * v * v, mass, speed, 2.0);
}

Estimate<Momentum> momentum(const Estimate<Mass>& mass, const Estimate<Speed>& speed) {
  return product<Momentum>(mass.value.si() * speed.value.si(), mass, speed, 1.0);
}

Ratio normal_energy_share(Angle from_normal) {
  expects(from_normal.si() >= 0.0 && from_normal.si() < std::numbers::pi / 2.0,
          "normal_energy_share: 0 <= angle < 90 deg");
  const double c = std::cos(from_normal.si());
  return Ratio::from_si(c * c);
}

EnergyPerArea energy_per_cross_section(Energy energy, Length diameter) {
  expects(diameter.si() > 0.0, "energy_per_cross_section: positive diameter");
  return EnergyPerArea::from_si(4.0 * energy.si() /
                                (std::numbers::pi * diameter.si() * diameter.si()));
}

Length equal_energy_hailstone(Energy energy, const FallSpeedFit& fit) {
  expects(energy.si() > 0.0, "equal_energy_hailstone: positive energy");
  // E = (pi/12) rho d^3 V(d)^2 with V = a (d/cm)^b, so E grows as d^(3 + 2 b).
  const double cm = 0.01;
  const double at_one_cm = std::numbers::pi / 12.0 * IceDensity::nominal.si() * cm * cm * cm *
                           fit.factor_mps * fit.factor_mps;
  return Length::from_si(cm * std::pow(energy.si() / at_one_cm, 1.0 / (3.0 + 2.0 * fit.power)));
}

HailstoneRange equal_energy_hailstones(Energy energy) {
  const auto fits = fall_speed_fits();
  HailstoneRange range{equal_energy_hailstone(energy, fits.front()),
                       equal_energy_hailstone(energy, fits.front())};
  for (const FallSpeedFit& fit : fits) {
    const Length d = equal_energy_hailstone(energy, fit);
    range.smallest = std::min(range.smallest, d);
    range.largest = std::max(range.largest, d);
  }
  return range;
}

}  // namespace hailwright
