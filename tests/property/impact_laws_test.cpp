// Laws of scale that any right formula of energy, drag and flight obeys.
#include <cmath>

#include "hailwright/physics/drag.hpp"
#include "hailwright/physics/flight.hpp"
#include "hailwright/physics/ice_ball.hpp"
#include "hailwright/physics/impact.hpp"
#include "support/catch.hpp"
#include "support/property.hpp"

namespace hailwright::testing {

namespace {

Mass drawn_mass(Draw& draw) {
  return Mass::from_si(draw.magnitude("mass [kg]", 1e-4, 1.0));
}
Mass sphere(Length diameter, Density density) {
  return mass_of_sphere({diameter}, {density}).value;
}
Speed drawn_speed(Draw& draw) {
  return Speed::from_si(draw.magnitude("speed [m/s]", 0.1, 200.0));
}
double drawn_factor(Draw& draw) {
  return draw.magnitude("factor", 0.1, 10.0);
}
void must_be_share(double found, double wanted, const std::string& what) {
  must_be_close(found, wanted, 1e-12 * std::abs(wanted), what);
}

}  // namespace

TEST_CASE("Property: energy goes with mass and with the square of speed") {
  holds("E(k m) is k E(m), E(k v) is k^2 E(v), p(k v) is k p(v)", [](Draw& draw) {
    const Estimate<Mass> m{drawn_mass(draw)};
    const Estimate<Speed> v{drawn_speed(draw)};
    const double k = drawn_factor(draw);
    const double e = kinetic_energy(m, v).value.si();
    must_be_share(kinetic_energy({k * m.value}, v).value.si(), k * e, "k m");
    must_be_share(kinetic_energy(m, {k * v.value}).value.si(), k * k * e, "k v");
    must_be_share(momentum(m, {k * v.value}).value.si(), k * momentum(m, v).value.si(), "p");
    must_be_share(momentum(m, v).value.si() * v.value.si(), 2.0 * e, "p v is 2 E");
  });
}

TEST_CASE("Property: at one density mass and energy go with the cube of the diameter") {
  holds("m(k d) is k^3 m(d), and so is E", [](Draw& draw) {
    const Length d = Length::from_si(draw.magnitude("diameter [m]", 0.005, 0.1));
    const Density density = Density::from_si(draw.number("density [kg/m3]", 700.0, 920.0));
    const Estimate<Speed> v{drawn_speed(draw)};
    const double k = drawn_factor(draw);
    const auto energy = [&](Length of) {
      return kinetic_energy({sphere(of, density)}, v).value.si();
    };
    must_be_share(energy(k * d), k * k * k * energy(d), "E");
  });
}

TEST_CASE("Property: relative uncertainties of mass and speed make that of the energy") {
  holds("u_E^2 is u_m^2 + (2 u_v)^2, whatever mass and speed are", [](Draw& draw) {
    const Mass m = drawn_mass(draw);
    const Speed v = drawn_speed(draw);
    const double um = draw.number("u of the mass, as a share", 0.0, 0.2);
    const double uv = draw.number("u of the speed, as a share", 0.0, 0.2);
    const Estimate<Energy> e = kinetic_energy({m, um * m}, {v, uv * v});
    must_be_close(e.relative_u(), std::hypot(um, 2.0 * uv), 1e-12, "relative u of the energy");
    const Estimate<Momentum> p = momentum({m, um * m}, {v, uv * v});
    must_be_close(p.relative_u(), std::hypot(um, uv), 1e-12, "relative u of the momentum");
  });
}

TEST_CASE("Property: terminal speed of one coefficient goes with the root of the diameter") {
  holds("v_t(k d) is sqrt(k) v_t(d) at one density; thinner air makes it faster", [](Draw& draw) {
    const Length d = Length::from_si(draw.magnitude("diameter [m]", 0.005, 0.1));
    const Density air = Density::from_si(draw.number("air [kg/m3]", 0.8, 1.4));
    const double cd = draw.number("coefficient", 0.3, 0.8);
    const double k = drawn_factor(draw);
    const auto fall = [&](Length of, Density through) {
      return terminal_speed({sphere(of, Density::from_si(917.0)), of}, through, cd).si();
    };
    must_be_share(fall(k * d, air), std::sqrt(k) * fall(d, air), "k d");
    must_be_share(fall(d, k * air), fall(d, air) / std::sqrt(k), "k air");
  });
}

TEST_CASE("Property: a fall nears its terminal speed and never passes it") {
  holds("0 <= v(h) <= v_t, rising with h; the height that gives a speed is found again",
        [](Draw& draw) {
          const Speed terminal = Speed::from_si(draw.magnitude("terminal [m/s]", 5.0, 60.0));
          const Length h = Length::from_si(draw.magnitude("height [m]", 0.01, 100.0));
          const Speed v = drop_speed(h, terminal);
          must(v <= terminal, "not beyond the terminal speed");
          must(v <= drop_speed(1.1 * h, terminal), "not slower from higher");
          // Without air v is sqrt(2 g h), which no drag can help to pass.
          must(v.si() <= std::sqrt(2.0 * 9.80665 * h.si()) * (1.0 + 1e-12), "not beyond no air");
          if (v.si() > 0.999 * terminal.si()) return;  // there the height hangs on the last digits
          const auto again = drop_height(v, terminal);
          must(again.has_value(), "a height gives the speed");
          must_be_close(again->si(), h.si(), 1e-9 * h.si(), "height");
        });
}

TEST_CASE("Property: speed lost on a way is given back by working back") {
  holds("speed_before(speed_after(v)) is v, and two ways are one", [](Draw& draw) {
    const Speed v = drawn_speed(draw);
    const Length way = Length::from_si(draw.number("way [m]", 0.0, 50.0));
    const Length more = Length::from_si(draw.number("more [m]", 0.0, 50.0));
    const Length drag = Length::from_si(draw.magnitude("drag length [m]", 5.0, 500.0));
    const Speed later = speed_after(v, way, drag);
    must(later <= v, "drag makes nothing faster");
    must_be_share(speed_before(later, way, drag).si(), v.si(), "back");
    must_be_share(speed_after(later, more, drag).si(), speed_after(v, way + more, drag).si(),
                  "two ways");
  });
}

TEST_CASE("Property: drag keeps every flight within the reach without air") {
  holds(
      "reach with drag <= reach without, which goes with v^2 and the scale of the height",
      [](Draw& draw) {
        const Speed v = Speed::from_si(draw.magnitude("speed [m/s]", 2.0, 60.0));
        const Length h = Length::from_si(draw.number("height [m]", 0.0, 5.0));
        const double k = draw.magnitude("factor", 0.5, 2.0);
        const Length free = no_air_reach(v, h);
        must_be_share(no_air_reach(k * v, k * k * h).si(), k * k * free.si(), "scaled");
        const Length d = Length::from_si(0.025);
        const FlightPath path{{sphere(d, Density::from_si(917.0)), d},
                              standard_air(Length{}),
                              Drag::constant(draw.number("coefficient", 0.3, 0.6)),
                              Speed{}};
        const FarthestReach far = farthest_reach(v, h, path);
        must(far.landing.away.si() <= free.si() * (1.0 + 1e-6), "not farther than without air");
      },
      20);
}

}  // namespace hailwright::testing
