#include "hailwright/physics/drag.hpp"

#include <cmath>
#include <limits>
#include <numbers>

#include "hailwright/core/contract.hpp"
#include "support/catch.hpp"

using namespace hailwright;

namespace {

FlyingBall ice(double mm) {
  const double d_m = mm / 1000.0;
  return {Mass::from_si(917.0 * std::numbers::pi / 6.0 * d_m * d_m * d_m), Length::from_si(d_m)};
}

const Air sea_level = standard_air(Length{});

}  // namespace

// Stokes: a sphere that creeps has Cd = 24/Re.
TEST_CASE("a slow sphere has the drag of Stokes") {
  CHECK_THAT(sphere_drag_coefficient(1e-6) * 1e-6, WithinRel(24.0, 1e-4));
}

TEST_CASE("there is no drag crisis: the law is constant beyond Re 2e5") {
  const double last = sphere_drag_coefficient(2e5);
  for (const double re : {2.0001e5, 3e5, 3.5e5, 1e6, 1e9}) {
    CAPTURE(re);
    CHECK(sphere_drag_coefficient(re) == last);
  }
  CHECK_THAT(sphere_drag_coefficient(1.9999e5), WithinAbs(last, 1e-6));
}

TEST_CASE("drag by one coefficient or by the law") {
  const Length d = Length::from_si(0.025);
  const Speed v = Speed::from_si(23);
  CHECK(Drag::constant(0.5).coefficient(v, d, sea_level) == 0.5);
  CHECK(Drag::constant(0.5).coefficient(Speed{}, d, sea_level) == 0.5);
  CHECK(Drag::constant(0.0).coefficient(v, d, sea_level) == 0.0);
  // Re = 1.225 * 23 * 0.025 / 1.78938e-5 = 39364.
  CHECK_THAT(Drag::clift_gauvin().coefficient(v, d, sea_level),
             WithinRel(sphere_drag_coefficient(39364.0), 1e-6));
}

// Identity: L = 2 m/(rho Cd A) and m g = rho Cd A v_t^2 / 2 make v_t^2 = g L.
TEST_CASE("the square of the terminal speed is g times the drag length") {
  for (const double mm : {5.0, 12.5, 25.0, 45.0, 75.0, 100.0}) {
    for (const double cd : {0.3, 0.45, 0.47, 0.5, 0.6}) {
      for (const double rho : {0.909, 1.2, 1.225, 1.34}) {
        CAPTURE(mm, cd, rho);
        const Density air = Density::from_si(rho);
        const double vt_mps = terminal_speed(ice(mm), air, cd).si();
        CHECK_THAT(vt_mps * vt_mps, WithinRel(9.80665 * drag_length(ice(mm), air, cd).si(), 1e-14));
      }
    }
  }
}

// Another form of the same, by densities: L = 4 rho_ice d / (3 rho_air Cd).
TEST_CASE("drag length by densities") {
  CHECK_THAT(drag_length(ice(45), Density::from_si(1.2), 0.5).si(),
             WithinRel(4.0 * 917.0 * 0.045 / (3.0 * 1.2 * 0.5), 1e-14));
}

TEST_CASE("at the terminal speed of the law, drag carries the weight") {
  for (const double mm : {0.05, 1.0, 5.0, 12.5, 25.0, 75.0, 100.0, 1000.0}) {
    CAPTURE(mm);
    const FlyingBall ball = ice(mm);
    const Speed v = terminal_speed(ball, sea_level);
    const double cd = Drag::clift_gauvin().coefficient(v, ball.diameter, sea_level);
    const double d_m = ball.diameter.si();
    const double drag_n = 0.5 * 1.225 * cd * std::numbers::pi / 4.0 * d_m * d_m * v.si() * v.si();
    // 1.225 kg/m3 is the density at the level of the sea to four digits more than needed here.
    CHECK_THAT(drag_n, WithinRel(ball.mass.si() * 9.80665, 5e-6));
    CHECK(terminal_speed(ball, sea_level, Drag::clift_gauvin()) == v);
  }
}

TEST_CASE("terminal speed by any drag") {
  CHECK(terminal_speed(ice(25), sea_level, Drag::constant(0.5)) ==
        terminal_speed(ice(25), sea_level.density, 0.5));
  CHECK_FALSE(terminal_speed(ice(25), sea_level, Drag::constant(0.0)).has_value());
}

TEST_CASE("drag outside its domain is our bug") {
  const Density air = Density::from_si(1.2);
  CHECK_THROWS_AS(sphere_drag_coefficient(0.0), BugError);
  CHECK_THROWS_AS(sphere_drag_coefficient(std::nan("")), BugError);
  CHECK_THROWS_AS(Drag::constant(-0.1), BugError);
  CHECK_THROWS_AS(Drag::constant(std::numeric_limits<double>::infinity()), BugError);
  CHECK_THROWS_AS(Drag::clift_gauvin().coefficient(Speed{}, Length::from_si(0.025), sea_level),
                  BugError);
  CHECK_THROWS_AS(drag_length({Mass{}, Length::from_si(0.025)}, air, 0.5), BugError);
  CHECK_THROWS_AS(drag_length({Mass::from_si(0.0075), Length{}}, air, 0.5), BugError);
  CHECK_THROWS_AS(drag_length(ice(25), Density{}, 0.5), BugError);
  CHECK_THROWS_AS(terminal_speed(ice(25), air, 0.0), BugError);
}
