// Normalisation to 1000 W/m2 and 25 degC, and the temperature of cells from that of the back.
#include <cmath>

#include "hailwright/physics/normalised_power.hpp"
#include "support/catch.hpp"

using namespace hailwright;

// P_stc = P (1000/G) / (1 + gamma (Tc - 25)), the inverse of the DC model read in the documentation
// of an open PV modelling library. Status: computed; tolerance 1e-7.
TEST_CASE("check stc_correction: power at standard test conditions", "[reference]") {
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

// King et al. 2004 (SAND2004-3535), eq. 11 and 12: Tm = Ta + E exp(a + b WS) for the back and
// Tc = Tm + dT E/1000 for the cells; coefficients of open-rack glass and polymer read in that
// documentation. Status: computed; tolerance 1e-9. The tool measures Tm, so that only the second
// relation is its own; the cell temperature is found again from the power it makes of 100 W.
TEST_CASE("check sapm_temperature: cells above the back of a panel", "[reference]") {
  const double irradiance = 1000.0;
  const double back_c = 20.0 + irradiance * std::exp(-3.56 - 0.075 * 1.0);
  CHECK_THAT(back_c, WithinAbs(46.3839343874, 1e-9));
  const double gamma = -0.004;
  const NormalisedReading reading{
      Power::from_si(100), Irradiance::from_si(irradiance), TemperaturePoint::from_celsius(back_c),
      TemperatureCoefficient::from_si(gamma), TemperatureDifference::from_si(3.0)};
  const double cell_c = 25.0 + (100.0 / normalised_power(reading).si() - 1.0) / gamma;
  CHECK_THAT(cell_c, WithinAbs(49.3839343874, 1e-9));
  // At half the irradiance the cells are half as far above the back.
  NormalisedReading half = reading;
  half.irradiance = Irradiance::from_si(irradiance / 2.0);
  const double half_cell_c = 25.0 + (200.0 / normalised_power(half).si() - 1.0) / gamma;
  CHECK_THAT(half_cell_c - back_c, WithinAbs(1.5, 1e-9));
}
