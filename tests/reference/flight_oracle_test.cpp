// Flights against another solver: Boost.Odeint's Dormand-Prince pair of fifth order with steps
// controlled to 1e-12, on the equations of motion over time, typed here a second time.

#include <algorithm>
#include <array>
#include <cmath>
#include <numbers>
#include <optional>

#include <boost/numeric/odeint.hpp>

#include "hailwright/physics/flight.hpp"
#include "support/catch.hpp"

using namespace hailwright;
namespace odeint = boost::numeric::odeint;

namespace {

constexpr double promised = 1e-6;

using Vector = std::array<double, 4>;  // away, height, and their speeds

struct Case {
  double mm;
  double mps;
  double elevation_rad;
  double height_m;
  double wind_mps;
  std::optional<double> coefficient;  // nothing: Clift and Gauvin
};

/// State after a time.
Vector oracle(const Case& c, double density, double viscosity, double time_s) {
  const double d = c.mm / 1000.0;
  const double mass = 917.0 * std::numbers::pi / 6.0 * d * d * d;
  const double area = std::numbers::pi * d * d / 4.0;
  const auto law = [&](double w) {
    if (c.coefficient) return *c.coefficient;
    const double re = std::min(2e5, density * w * d / viscosity);
    return 24.0 / re * (1.0 + 0.152 * std::pow(re, 0.677)) +
           0.417 / (1.0 + 5070.0 / std::pow(re, 0.94));
  };
  const auto motion = [&](const Vector& x, Vector& slope, double) {
    const double along = x[2] - c.wind_mps;
    const double w = std::sqrt(along * along + x[3] * x[3]);
    const double pull = w > 0.0 ? 0.5 * density * law(w) * area * w / mass : 0.0;
    slope = {x[2], x[3], -pull * along, -pull * x[3] - 9.80665};
  };
  Vector x{0.0, c.height_m, c.mps * std::cos(c.elevation_rad), c.mps * std::sin(c.elevation_rad)};
  odeint::integrate_adaptive(
      odeint::make_controlled(1e-12, 1e-12, odeint::runge_kutta_dopri5<Vector>()), motion, x, 0.0,
      time_s, time_s / 100.0);
  return x;
}

FlightPath path_of(const Case& c) {
  const double d = c.mm / 1000.0;
  return {{Mass::from_si(917.0 * std::numbers::pi / 6.0 * d * d * d), Length::from_si(d)},
          standard_air(Length{}),
          c.coefficient ? Drag::constant(*c.coefficient) : Drag::clift_gauvin(),
          Speed::from_si(c.wind_mps)};
}

LaunchState launch_of(const Case& c) {
  return {Speed::from_si(c.mps), Angle::from_si(c.elevation_rad), Length::from_si(c.height_m)};
}

void check(const Case& c, const FlightPoint& end) {
  CAPTURE(c.mm, c.mps, c.elevation_rad, c.height_m, c.wind_mps, c.coefficient.value_or(-1.0));
  if (end.time == Time{}) return;
  const Air air = standard_air(Length{});
  const Vector x = oracle(c, air.density.si(), air.viscosity.si(), end.time.si());
  const double speed = std::hypot(x[2], x[3]);
  // Places against the size of the flight: a ball that is thrown straight up lands at 0 m.
  const double size = std::max({std::abs(x[0]), c.height_m, speed * end.time.si() / 4.0});
  CHECK_THAT(end.away.si(), WithinAbs(x[0], promised * size));
  CHECK_THAT(end.height.si(), WithinAbs(x[1], promised * size));
  CHECK_THAT(end.speed.si(), WithinRel(speed, promised));
  CHECK_THAT(end.speed.si() * std::sin(end.down.si()), WithinAbs(-x[3], promised * speed));
}

}  // namespace

TEST_CASE("flights to the ground, against Boost.Odeint", "[reference]") {
  const double degree = std::numbers::pi / 180.0;
  const std::optional<double> drags[] = {0.3, 0.6, std::nullopt};
  for (const double mm : {5.0, 25.0, 100.0}) {
    for (const double v : {1.0, 23.0, 80.0}) {
      for (const double h : {0.0, 1.5, 30.0}) {
        for (const double deg : {-30.0, 0.0, 40.0, 90.0}) {
          for (const double wind : {-10.0, 0.0, 10.0}) {
            for (const auto& coefficient : drags) {
              const Case c{mm, v, deg * degree, h, wind, coefficient};
              check(c, fly_to_ground(launch_of(c), path_of(c)));
            }
          }
        }
      }
    }
  }
}

TEST_CASE("flights to the panel, against Boost.Odeint", "[reference]") {
  for (const double mm : {12.5, 25.0, 75.0}) {
    for (const double distance : {0.5, 3.0, 20.0}) {
      for (const double wind : {-5.0, 0.0, 5.0}) {
        const Case c{mm, 30.0, 0.05, 1.2, wind, std::nullopt};
        CAPTURE(mm, distance, wind);
        const auto end =
            fly_to_distance(launch_of(c), path_of(c), Length::from_si(distance), false);
        REQUIRE(end.has_value());
        CHECK_THAT(end->away.si(), WithinRel(distance, 1e-12));
        check(c, *end);
      }
    }
  }
}
