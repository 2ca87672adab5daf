// Flights with a solution in closed form. Derivations, no source needed. The solver promises 1e-6.

#include <cmath>
#include <numbers>

#include "hailwright/physics/flight.hpp"
#include "support/catch.hpp"

using namespace hailwright;

namespace {

constexpr double promised = 1e-6;
constexpr double g = 9.80665;
constexpr double degree = std::numbers::pi / 180.0;

FlyingBall ice(double mm) {
  const double d_m = mm / 1000.0;
  return {Mass::from_si(917.0 * std::numbers::pi / 6.0 * d_m * d_m * d_m), Length::from_si(d_m)};
}

FlightPath path_of(double mm, double coefficient, double tailwind_mps = 0.0) {
  return {ice(mm), standard_air(Length{}), Drag::constant(coefficient),
          Speed::from_si(tailwind_mps)};
}

LaunchState launch(double mps, double elevation_rad, double height_m) {
  return {Speed::from_si(mps), Angle::from_si(elevation_rad), Length::from_si(height_m)};
}

double terminal_mps(double mm, double coefficient) {
  return terminal_speed(ice(mm), standard_air(Length{}).density, coefficient).si();
}

}  // namespace

TEST_CASE("closed form: without air: the parabola", "[reference]") {
  for (const double deg : {-60.0, -10.0, 0.0, 10.0, 45.0, 80.0}) {
    for (const double h : {0.5, 1.5, 30.0}) {
      for (const double v : {1.0, 23.0, 80.0}) {
        CAPTURE(deg, h, v);
        const double up = v * std::sin(deg * degree);
        const double along = v * std::cos(deg * degree);
        const double t = (up + std::sqrt(up * up + 2.0 * g * h)) / g;
        // Wind does nothing where there is no air.
        const FlightPath path = path_of(25, 0.0, 10.0);
        const FlightPoint end = fly_to_ground(launch(v, deg * degree, h), path);
        CHECK_THAT(end.time.si(), WithinRel(t, promised));
        CHECK_THAT(end.away.si(), WithinRel(along * t, promised));
        CHECK_THAT(end.speed.si(), WithinRel(std::sqrt(v * v + 2.0 * g * h), promised));
        CHECK_THAT(end.down.si(), WithinRel(std::atan2(g * t - up, along), promised));

        const double x = 0.5 * along * t;
        const auto half = fly_to_distance(launch(v, deg * degree, h), path, Length::from_si(x));
        REQUIRE(half.has_value());
        CHECK_THAT(half->time.si(), WithinRel(0.5 * t, promised));
        const double height = h + up * 0.5 * t - g * t * t / 8.0;
        CHECK_THAT(half->height.si(), WithinAbs(height, promised * (h + v * v / g)));
      }
    }
  }
}

TEST_CASE("closed form: without air: the farthest reach is the bound", "[reference]") {
  for (const double h : {0.0, 1.5, 30.0}) {
    for (const double v : {1.0, 23.0, 80.0}) {
      CAPTURE(h, v);
      const Length bound = no_air_reach(Speed::from_si(v), Length::from_si(h));
      const FarthestReach reach =
          farthest_reach(Speed::from_si(v), Length::from_si(h), path_of(25, 0.0));
      CHECK_THAT(reach.landing.away.si(), WithinRel(bound.si(), promised));
      // tan of the best elevation is v / sqrt(v^2 + 2 g h); known to 1e-4 rad.
      CHECK_THAT(reach.elevation.si(),
                 WithinAbs(std::atan2(v, std::sqrt(v * v + 2.0 * g * h)), 1e-4));
    }
  }
}

TEST_CASE("closed form: falls from rest", "[reference]") {
  for (const double mm : {5.0, 25.0, 100.0}) {
    for (const double h : {0.1, 3.0, 30.0, 1000.0}) {
      CAPTURE(mm, h);
      const double vt = terminal_mps(mm, 0.5);
      const FlightPoint end = fly_to_ground(launch(0, 0, h), path_of(mm, 0.5));
      CHECK_THAT(end.speed.si(),
                 WithinRel(vt * std::sqrt(1.0 - std::exp(-2.0 * g * h / (vt * vt))), promised));
      // t = (v_t/g) arcosh(exp(g h / v_t^2)), with the logarithm written out for large arguments.
      const double a = g * h / (vt * vt);
      const double t = vt / g * (a + std::log1p(std::sqrt(-std::expm1(-2.0 * a))));
      CHECK_THAT(end.time.si(), WithinRel(t, promised));
      CHECK_THAT(end.away.si(), WithinAbs(0.0, 1e-12));
    }
  }
}

// Down: v^2 = v_t^2 + (v0^2 - v_t^2) exp(-2 g h / v_t^2), also for a ball that is too fast.
TEST_CASE("closed form: thrown straight down", "[reference]") {
  for (const double v : {2.0, 20.0, 80.0}) {
    for (const double h : {1.5, 30.0}) {
      CAPTURE(v, h);
      const double vt = terminal_mps(25, 0.5);
      const FlightPoint end = fly_to_ground(launch(v, -90.0 * degree, h), path_of(25, 0.5));
      const double squared = vt * vt + (v * v - vt * vt) * std::exp(-2.0 * g * h / (vt * vt));
      CHECK_THAT(end.speed.si(), WithinRel(std::sqrt(squared), promised));
    }
  }
}

// Up and back: u = v / sqrt(1 + v^2/v_t^2), t = (v_t/g) (arctan(v/v_t) + arsinh(v/v_t)). The ball
// comes to rest at the top, where |v| v has a kink: the hardest case for the solver.
TEST_CASE("closed form: thrown straight up", "[reference]") {
  for (const double mm : {5.0, 25.0, 100.0}) {
    for (const double v : {1.0, 5.0, 23.0, 80.0}) {
      CAPTURE(mm, v);
      const double vt = terminal_mps(mm, 0.5);
      const FlightPoint end = fly_to_ground(launch(v, 90.0 * degree, 0), path_of(mm, 0.5));
      CHECK_THAT(end.speed.si(), WithinRel(v / std::sqrt(1.0 + v * v / (vt * vt)), promised));
      CHECK_THAT(end.time.si(),
                 WithinRel(vt / g * (std::atan(v / vt) + std::asinh(v / vt)), promised));
    }
  }
}

// So fast that gravity does not matter on the way: v exp(-x/L). At 1000 m/s the ball sags 20 mm
// over 50 m, which makes its way longer by 1e-7 of it.
TEST_CASE("closed form: level and fast", "[reference]") {
  for (const double x : {1.0, 10.0, 50.0}) {
    CAPTURE(x);
    const FlightPath path = path_of(25, 0.5);
    const auto end = fly_to_distance(launch(1000, 0, 1.5), path, Length::from_si(x));
    REQUIRE(end.has_value());
    const Length length = drag_length(path.ball, path.air.density, 0.5);
    const Speed v = speed_after(Speed::from_si(1000), Length::from_si(x), length);
    CHECK_THAT(end->speed.si(), WithinRel(v.si(), promised));
    CHECK_THAT(end->time.si(),
               WithinRel(length.si() / 1000.0 * std::expm1(x / length.si()), promised));
  }
}

// What never changes in a flight with quadratic drag: with p the slope of the way and u the speed
// along the ground, dp/dt = -g/u and du/dt = -u^2 sqrt(1 + p^2)/L give
//   d(1/u^2)/dp = -2 sqrt(1 + p^2)/(g L),
// so that 1/u^2 + (p sqrt(1 + p^2) + arsinh p)/(g L) keeps its value.
TEST_CASE("closed form: the invariant of every flight in still air", "[reference]") {
  for (const double mm : {5.0, 25.0, 100.0}) {
    for (const double deg : {-45.0, 0.0, 10.0, 40.0, 80.0}) {
      for (const double v : {5.0, 23.0, 80.0}) {
        CAPTURE(mm, deg, v);
        const double vt = terminal_mps(mm, 0.5);
        const auto invariant = [&](double slope, double along_mps) {
          return 1.0 / (along_mps * along_mps) +
                 (slope * std::sqrt(1.0 + slope * slope) + std::asinh(slope)) / (vt * vt);
        };
        const FlightPoint end = fly_to_ground(launch(v, deg * degree, 1.5), path_of(mm, 0.5));
        const double slope = -std::tan(end.down.si());
        const double along = end.speed.si() * std::cos(end.down.si());
        const double start = invariant(std::tan(deg * degree), v * std::cos(deg * degree));
        // Both terms grow on a steep way; the error is a share of the larger.
        const double scale = 1.0 / (along * along);
        CHECK_THAT(invariant(slope, along), WithinAbs(start, 4.0 * promised * scale));
      }
    }
  }
}

// In air that moves with the wind, the same flight: its way over the ground is longer by wind times
// time.
TEST_CASE("closed form: a wind carries the whole flight along", "[reference]") {
  for (const double wind : {-8.0, 3.0, 10.0}) {
    for (const double up : {-3.0, 0.0, 12.0}) {
      CAPTURE(wind, up);
      const double through_air = 12.0;  // along the ground, seen from the air
      const double over_ground = through_air + wind;
      const auto thrown = [&](double along) {
        return launch(std::hypot(along, up), std::atan2(up, along), 1.5);
      };
      const FlightPoint still = fly_to_ground(thrown(through_air), path_of(25, 0.5));
      const FlightPoint windy = fly_to_ground(thrown(over_ground), path_of(25, 0.5, wind));
      CHECK_THAT(windy.time.si(), WithinRel(still.time.si(), promised));
      CHECK_THAT(windy.away.si(), WithinRel(still.away.si() + wind * still.time.si(), promised));
    }
  }
}

// From high enough every ball ends at its terminal speed, going with the wind.
TEST_CASE("closed form: a long fall ends evenly", "[reference]") {
  const double vt = terminal_mps(25, 0.5);
  const FlightPoint end = fly_to_ground(launch(23, 0, 10000), path_of(25, 0.5, 10));
  CHECK_THAT(end.speed.si(), WithinRel(std::hypot(vt, 10.0), promised));
  CHECK_THAT(std::tan(end.down.si()), WithinRel(vt / 10.0, promised));
}
