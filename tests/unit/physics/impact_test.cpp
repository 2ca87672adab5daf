#include "hailwright/physics/impact.hpp"

#include <cmath>
#include <numbers>

#include "hailwright/core/contract.hpp"
#include "support/catch.hpp"

using namespace hailwright;

namespace {

Estimate<Mass> grams(double g, double relative_u = 0.0) {
  return {Mass::from_si(g / 1000), Mass::from_si(g / 1000 * relative_u)};
}
Estimate<Speed> mps(double v, double relative_u = 0.0) {
  return {Speed::from_si(v), Speed::from_si(v * relative_u)};
}

}  // namespace

// The IEC 25 mm row (read at secondary sources), energy and momentum computed.
TEST_CASE("energy and momentum") {
  CHECK_THAT(kinetic_energy(grams(7.53), mps(23)).value.si(), WithinAbs(1.9917, 0.00005));
  CHECK_THAT(momentum(grams(7.53), mps(23)).value.si(), WithinAbs(0.1732, 0.00005));
  // A Swiss test report's shot, read; energy computed.
  CHECK_THAT(kinetic_energy(grams(12.77), mps(25.49)).value.si(), WithinAbs(4.1486, 0.00005));
}

TEST_CASE("relative uncertainty of the energy counts the speed twice") {
  const double u = 0.05 / std::sqrt(3.0);
  const auto e = kinetic_energy(grams(7.53, u), mps(23, u));
  CHECK_THAT(e.relative_u() * 100, WithinAbs(6.455, 0.0005));
  CHECK_THAT(kinetic_energy(grams(7.53, 0.05), mps(23, 0.05)).relative_u() * 100,
             WithinAbs(11.18, 0.005));
  CHECK_THAT(momentum(grams(7.53, 0.03), mps(23, 0.04)).relative_u(), WithinRel(0.05, 1e-12));
}

// Common practice: 15, 30, 45 and 60 degrees from the normal.
TEST_CASE("share of the energy along the normal") {
  const double deg = std::numbers::pi / 180;
  const double expected[] = {0.93301, 0.75, 0.50, 0.25};
  for (int i = 0; i < 4; ++i) {
    CHECK_THAT(normal_energy_share(Angle::from_si((15.0 * (i + 1)) * deg)).si(),
               WithinAbs(expected[i], 5e-6));
  }
  CHECK_THROWS_AS(normal_energy_share(Angle::from_si(90 * deg)), BugError);
}

// Computed beforehand: 25 mm carries 4 060 J/m2 of its cross-section.
TEST_CASE("energy over the cross-section") {
  CHECK_THAT(energy_per_cross_section(Energy::from_si(1.9917), Length::from_si(0.025)).si(),
             WithinAbs(4060, 5));
}

// MEASUREMENT M13, computed: the IEC 25, 35 and 45 mm energies.
TEST_CASE("the hailstone of equal energy is a range over the named fits") {
  struct Row {
    double joule, low_mm, high_mm;
  };
  for (const Row& r :
       {Row{1.9917, 24.9, 30.0}, Row{7.6573, 34.8, 40.9}, Row{20.6877, 44.6, 51.5}}) {
    CAPTURE(r.joule);
    const auto range = equal_energy_hailstones(Energy::from_si(r.joule));
    CHECK_THAT(range.smallest.si() * 1000, WithinAbs(r.low_mm, 0.051));
    CHECK_THAT(range.largest.si() * 1000, WithinAbs(r.high_mm, 0.051));
  }
}

TEST_CASE("an impact without mass or speed is our bug") {
  CHECK_THROWS_AS(kinetic_energy(grams(0), mps(23)), BugError);
  CHECK_THROWS_AS(equal_energy_hailstones(Energy{}), BugError);
}
