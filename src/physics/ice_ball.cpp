#include "hailwright/physics/ice_ball.hpp"

#include <algorithm>
#include <cmath>
#include <numbers>

#include "hailwright/core/contract.hpp"
#include "hailwright/metrology/budget.hpp"
#include "hailwright/tables/hailstones.hpp"

namespace hailwright {

namespace {

constexpr double heat_transfer_w_per_m2k = 25.0;   // light wind; ours, see docs/defaults.md
constexpr double heat_of_fusion_j_per_kg = 334e3;  // of water, from memory (CRC Handbook)

}  // namespace

Estimate<Mass> mass_of_sphere(const Estimate<Length>& diameter, const Estimate<Density>& density) {
  expects(diameter.value.si() > 0.0 && density.value.si() > 0.0, "mass_of_sphere: positive");
  const double d = diameter.value.si();
  const double mass_kg = density.value.si() * std::numbers::pi / 6.0 * d * d * d;
  const Combined u = combine(Combined{3.0 * diameter.relative_u(), diameter.degrees_of_freedom},
                             Combined{density.relative_u(), density.degrees_of_freedom});
  return {Mass::from_si(mass_kg), Mass::from_si(mass_kg * u.standard_u), u.degrees_of_freedom};
}

Estimate<Density> implied_density(const Estimate<Mass>& mass, const Estimate<Length>& diameter) {
  expects(diameter.value.si() > 0.0 && mass.value.si() > 0.0, "implied_density: positive");
  const double d = diameter.value.si();
  const double density = 6.0 * mass.value.si() / (std::numbers::pi * d * d * d);
  const Combined u = combine(Combined{mass.relative_u(), mass.degrees_of_freedom},
                             Combined{3.0 * diameter.relative_u(), diameter.degrees_of_freedom});
  return {Density::from_si(density), Density::from_si(density * u.standard_u),
          u.degrees_of_freedom};
}

bool believable_ice(Density density) {
  return density >= IceDensity::low && density <= IceDensity::high;
}

Ratio largest_melt(Time out, Length diameter, TemperaturePoint air) {
  expects(out.si() >= 0.0 && diameter.si() > 0.0, "largest_melt: domain");
  const double over_k = std::max(0.0, air.celsius());
  const double share = 6.0 * heat_transfer_w_per_m2k * over_k * out.si() /
                       (IceDensity::nominal.si() * diameter.si() * heat_of_fusion_j_per_kg);
  return Ratio::from_si(std::min(1.0, share));
}

}  // namespace hailwright
