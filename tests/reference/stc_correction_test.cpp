// case stc_correction, computed: P_stc = P (1000/G) / (1 + gamma (Tc - 25)), the inverse of the
// DC model read in the documentation of an open PV modelling library.
#include "hailwright/physics/normalised_power.hpp"
#include "support/catch.hpp"

using namespace hailwright;

TEST_CASE("power at standard test conditions") {
  struct Row {
    double p, g, t_c, gamma, expected;
  };
  for (const Row& r :
       {Row{81.2, 905, 48.915, -0.0038, 98.69264875}, Row{50, 500, 25, -0.004, 100.0},
        Row{100, 1000, 65, -0.0045, 121.95121951}}) {
    CAPTURE(r.p, r.g, r.t_c, r.gamma);
    const NormalisedReading reading{Power::from_si(r.p),
                                    Irradiance::from_si(r.g),
                                    TemperaturePoint::from_celsius(r.t_c),
                                    TemperatureCoefficient::from_si(r.gamma),
                                    {}};
    CHECK_THAT(normalised_power(reading).si(), WithinAbs(r.expected, 1e-7));
  }
}

// King et al. 2004, eq. 12, computed: Tc = Tm + E/E0 dT (46.3839343874 -> 49.3839343874 at 1000).
TEST_CASE("a sensor on the back reads below the cells") {
  const NormalisedReading back{
      Power::from_si(80), Irradiance::from_si(1000), TemperaturePoint::from_celsius(46.3839343874),
      TemperatureCoefficient::from_si(-0.004), TemperatureDifference::from_si(3.0)};
  NormalisedReading cell = back;
  cell.back = TemperaturePoint::from_celsius(49.3839343874);
  cell.cell_above_back = {};
  CHECK_THAT(normalised_power(back).si(), WithinRel(normalised_power(cell).si(), 1e-12));
}
