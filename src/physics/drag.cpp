#include "hailwright/physics/drag.hpp"

#include <algorithm>
#include <cmath>
#include <numbers>

#include "hailwright/core/contract.hpp"

namespace hailwright {

double sphere_drag_coefficient(double reynolds) {
  expects(reynolds > 0.0, "sphere_drag_coefficient: Re > 0");
  const double re = std::min(reynolds, clift_gauvin_limit);
  return 24.0 / re * (1.0 + 0.152 * std::pow(re, 0.677)) +
         0.417 / (1.0 + 5070.0 * std::pow(re, -0.94));
}

Drag Drag::constant(double coefficient) {
  expects(coefficient >= 0.0 && std::isfinite(coefficient), "a drag coefficient of 0 or more");
  return Drag(coefficient);
}

Drag Drag::clift_gauvin() {
  return Drag(std::nullopt);
}

double Drag::coefficient(Speed through_air, Length diameter, const Air& air) const {
  if (constant_) return *constant_;
  return sphere_drag_coefficient(air.density.si() * through_air.si() * diameter.si() /
                                 air.viscosity.si());
}

Length drag_length(const FlyingBall& ball, Density air, double coefficient) {
  expects(ball.mass.si() > 0.0 && ball.diameter.si() > 0.0, "drag_length: a ball");
  expects(air.si() > 0.0 && coefficient > 0.0, "drag_length: drag");
  const double area_m2 = std::numbers::pi / 4.0 * ball.diameter.si() * ball.diameter.si();
  return Length::from_si(2.0 * ball.mass.si() / (air.si() * coefficient * area_m2));
}

Speed terminal_speed(const FlyingBall& ball, Density air, double coefficient) {
  return Speed::from_si(
      std::sqrt(standard_gravity.si() * drag_length(ball, air, coefficient).si()));
}

Speed terminal_speed(const FlyingBall& ball, const Air& air) {
  return *terminal_speed(ball, air, Drag::clift_gauvin());
}

std::optional<Speed> terminal_speed(const FlyingBall& ball, const Air& air, const Drag& drag) {
  Speed speed = terminal_speed(ball, air.density, drag_range::low);
  // v -> sqrt(g L(Cd(v))). Where Cd goes as v^-p, an error of ln v becomes p/2 of itself, and a
  // sphere has 0 <= p <= 1 but for a slight rise of Cd: each round at least halves the error, and
  // 60 rounds leave the last bit of any first guess that is not absurd. A constant needs one.
  constexpr int most_rounds = 60;
  for (int round = 0; round < most_rounds; ++round) {
    const double coefficient = drag.coefficient(speed, ball.diameter, air);
    if (coefficient == 0.0) return std::nullopt;
    const Speed next = terminal_speed(ball, air.density, coefficient);
    if (next == speed) break;
    speed = next;
  }
  return speed;
}

}  // namespace hailwright
