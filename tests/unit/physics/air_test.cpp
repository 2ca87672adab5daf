#include "hailwright/physics/air.hpp"

#include <cmath>

#include "hailwright/core/contract.hpp"
#include "support/catch.hpp"

using namespace hailwright;

namespace {

Length metres(double m) {
  return Length::from_si(m);
}

}  // namespace

// By definition of the standard atmosphere.
TEST_CASE("air at the level of the sea") {
  CHECK(standard_pressure(Length{}).si() == 101325.0);
  CHECK(standard_temperature(Length{}).kelvin() == 288.15);
  CHECK_THAT(standard_air(Length{}).density.si(), WithinAbs(1.225, 5e-6));
}

// What holds up the air is its weight: dp/dh = -rho g, here as a central difference over 2 m.
TEST_CASE("the pressure falls by the weight of the air") {
  for (const double h : {-400.0, 0.0, 1000.0, 5000.0, 10000.0}) {
    CAPTURE(h);
    const double slope =
        (standard_pressure(metres(h + 1)).si() - standard_pressure(metres(h - 1)).si()) / 2.0;
    CHECK_THAT(slope, WithinRel(-standard_air(metres(h)).density.si() * 9.80665, 1e-7));
  }
}

TEST_CASE("air as measured: standard pressure, own temperature") {
  const auto warm = TemperaturePoint::from_celsius(30.0);
  const Air air = air_at(metres(1500), warm);
  CHECK(air.density == air_density(standard_pressure(metres(1500)), warm));
  CHECK(air.viscosity == air_viscosity(warm));
  CHECK(air.density < standard_air(metres(1500)).density);      // warm air is lighter
  CHECK(air.viscosity > standard_air(metres(1500)).viscosity);  // and stickier
}

TEST_CASE("an altitude or a state that no air has is our bug") {
  CHECK_NOTHROW(standard_air(AltitudeRange::low));
  CHECK_NOTHROW(standard_air(AltitudeRange::high));
  CHECK_THROWS_AS(standard_air(metres(-431)), BugError);
  CHECK_THROWS_AS(standard_air(metres(11001)), BugError);
  CHECK_THROWS_AS(standard_air(metres(std::nan(""))), BugError);
  CHECK_THROWS_AS(air_density(Pressure{}, TemperaturePoint{}), BugError);
  CHECK_THROWS_AS(air_density(Pressure::from_si(1e5), TemperaturePoint::from_kelvin(0)), BugError);
  CHECK_THROWS_AS(air_viscosity(TemperaturePoint::from_kelvin(-1)), BugError);
}
