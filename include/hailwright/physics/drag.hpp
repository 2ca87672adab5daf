#pragma once

#include <optional>

#include "hailwright/core/quantity.hpp"
#include "hailwright/physics/air.hpp"

namespace hailwright {

/// Standard acceleration of gravity (exact by definition, CGPM 1901).
inline constexpr Acceleration standard_gravity = Acceleration::from_si(9.80665);

/// A ball in flight: a sphere that does not spin. Both above zero.
struct FlyingBall {
  Mass mass;
  Length diameter;
};

/// Reynolds number up to which the law of Clift and Gauvin was fitted; beyond it, its last value.
inline constexpr double clift_gauvin_limit = 2e5;

/// Drag coefficient of a smooth sphere: the first printed form of Clift and Gauvin 1970,
///   Cd = 24/Re (1 + 0.152 Re^0.677) + 0.417/(1 + 5070 Re^-0.94),
/// up to Re = 2e5 and constant beyond: no drag crisis. A smooth sphere loses most of its drag near
/// Re = 3e5; natural hail, slightly rough, rarely does (Heymsfield and Wright 2014, read), and to
/// leave the loss out is to let a ball slow down more. What must not fall short reckons with
/// drag_range::reach instead. A second printed form differs by up to 6 %.
/// @param reynolds  > 0 (contract)
/// Source: read in fluids/drag.py of the public repository CalebBell/fluids, which names the paper.
/// Checked in: tests/reference/flight_sphere_drag_test.cpp
double sphere_drag_coefficient(double reynolds);

/// How the drag of a ball is reckoned: one coefficient, or the named law by its Reynolds number.
class Drag {
public:
  /// @param coefficient  >= 0 (contract); 0 is a flight without air
  static Drag constant(double coefficient);
  static Drag clift_gauvin();
  /// @param through_air  > 0 (contract) for the named law, whose drag at rest has no coefficient
  [[nodiscard]] double coefficient(Speed through_air, Length diameter, const Air& air) const;

private:
  explicit Drag(std::optional<double> constant) : constant_(constant) {}
  std::optional<double> constant_;  ///< nothing: the named law
};

/// Coefficients that safety and grades reckon with (MEASUREMENT M16).
namespace drag_range {
inline constexpr double low = 0.45;    ///< a smooth sphere [common practice, no source]
inline constexpr double high = 0.60;   ///< a rough stone [common practice, no source]
inline constexpr double reach = 0.30;  ///< for how far a miss flies: less than any [ours, M16]
}  // namespace drag_range

/// Way in which drag alone takes the speed down to 1/e: 2 m / (rho Cd A). All above zero
/// (contract). Derivation: m dv/dt = -rho Cd A v^2 / 2, so dv/dx = -v / L.
Length drag_length(const FlyingBall& ball, Density air, double coefficient);

/// Terminal speed of a fall with this coefficient: sqrt(g L), where drag carries the weight.
/// Buoyancy is left out: ice in air falls 0.07 % slower with it.
Speed terminal_speed(const FlyingBall& ball, Density air, double coefficient);
/// The same after Clift and Gauvin, the coefficient taken at the terminal speed itself.
/// Checked in: tests/reference/flight_hail_tables_test.cpp
Speed terminal_speed(const FlyingBall& ball, const Air& air);
/// The same for any drag; nothing when there is none, since such a fall has no end to its speed.
std::optional<Speed> terminal_speed(const FlyingBall& ball, const Air& air, const Drag& drag);

}  // namespace hailwright
