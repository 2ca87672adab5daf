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
constexpr double still_air_w_per_m2k = 10.0;       // ours; a textbook's still room is 3, slower
constexpr double heat_of_ice_j_per_kgk = 2060.0;   // at -7 degC by 2114 + 7.79 t, from memory

Length mean_of(const std::vector<Length>& diameters) {
  Length sum;
  for (const Length d : diameters) {
    expects(d.si() > 0.0, "diameters of a ball are positive");
    sum += d;
  }
  return sum / static_cast<double>(diameters.size());
}

void check_mass(const BallMeasured& ball, const BallLimits& limits, BallCheck& check) {
  if (!ball.mass) {
    check.doubts.push_back(BallFault::no_mass);
    return;
  }
  if (*ball.mass < limits.mass_low) check.rejects.push_back(BallFault::too_light);
  if (*ball.mass > limits.mass_high) check.rejects.push_back(BallFault::too_heavy);
}

void check_diameter(const BallMeasured& ball, const BallLimits& limits, BallCheck& check) {
  if (ball.diameters.empty()) {
    check.rejects.push_back(BallFault::no_diameter);
    return;
  }
  check.diameter = mean_of(ball.diameters);
  if (*check.diameter < limits.diameter_low) check.rejects.push_back(BallFault::too_small);
  if (*check.diameter > limits.diameter_high) check.rejects.push_back(BallFault::too_large);
  check.roundness = roundness(ball.diameters);
  if (!check.roundness) {
    check.doubts.push_back(BallFault::one_diameter);
  } else if (*check.roundness > limits.roundness_max) {
    check.rejects.push_back(BallFault::not_round);
  }
}

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

Mass target_mass(Length diameter) {
  return mass_of_sphere({diameter}, {IceDensity::nominal}).value;
}

Ratio diameter_share(Ratio mass) {
  expects(mass.si() > -1.0, "diameter_share: some mass is left");
  return Ratio::from_si(std::cbrt(1.0 + mass.si()) - 1.0);
}

Ratio largest_melt(Time out, Length diameter, TemperaturePoint air) {
  expects(out.si() >= 0.0 && diameter.si() > 0.0, "largest_melt: domain");
  const double over_k = std::max(0.0, air.celsius());
  const double share = 6.0 * heat_transfer_w_per_m2k * over_k * out.si() /
                       (IceDensity::nominal.si() * diameter.si() * heat_of_fusion_j_per_kg);
  return Ratio::from_si(std::min(1.0, share));
}

Time warming_time(Length diameter) {
  expects(diameter.si() > 0.0, "warming_time: positive diameter");
  return Time::from_si(IceDensity::nominal.si() * heat_of_ice_j_per_kgk * diameter.si() /
                       (6.0 * still_air_w_per_m2k));
}

Ratio warmed_share(Time out, Length diameter) {
  expects(out.si() >= 0.0, "warmed_share: time");
  return Ratio::from_si(-std::expm1(-out.si() / warming_time(diameter).si()));
}

std::optional<Ratio> roundness(const std::vector<Length>& diameters) {
  if (diameters.size() < 2) return std::nullopt;
  const auto [least, most] = std::minmax_element(diameters.begin(), diameters.end());
  return (*most - *least) / mean_of(diameters);
}

BallLimits ball_limits(Mass mass, Length diameter, Ratio tolerance) {
  expects(mass.si() > 0.0 && diameter.si() > 0.0, "ball_limits: positive");
  expects(tolerance.si() >= 0.0 && tolerance.si() < 1.0, "ball_limits: tolerance");
  const double low = 1.0 - tolerance.si();
  const double high = 1.0 + tolerance.si();
  return {low * mass, high * mass, low * diameter, high * diameter, largest_roundness};
}

BallCheck check_ball(const BallMeasured& ball, const BallLimits& limits) {
  expects(!ball.mass || ball.mass->si() > 0.0, "check_ball: positive mass");
  BallCheck check;
  if (!ball.crack) check.doubts.push_back(BallFault::crack_not_checked);
  if (ball.crack.value_or(false)) check.rejects.push_back(BallFault::cracked);
  check_diameter(ball, limits, check);
  check_mass(ball, limits, check);
  if (ball.mass && check.diameter) {
    check.density = implied_density({*ball.mass}, {*check.diameter}).value;
    if (!believable_ice(*check.density)) check.doubts.push_back(BallFault::not_like_ice);
  }
  return check;
}

}  // namespace hailwright
