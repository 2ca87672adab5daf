#include "logs/normalised_rows.hpp"

#include <cmath>
#include <vector>

#include "hailwright/physics/normalised_power.hpp"
#include "support/catch.hpp"
#include "unit/logs/made_rows.hpp"

using namespace hailwright;
using made::always;

namespace {

const LogNormalisation how{TemperatureCoefficient::from_si(-0.0035),
                           TemperatureDifference::from_si(3.0), Irradiance::from_si(200.0)};

std::vector<double> normalised(const LogBlock& block, const LogNormalisation& by = how,
                               double load_on_w = 1.0) {
  std::vector<double> out;
  detail::fill_normalised(out, block, {}, by, Power::from_si(load_on_w), 0, block.rows());
  return out;
}

LogBlock one_row(double power_w, double irradiance_wpm2, double temperature_k) {
  return made::rows(1, 1.0,
                    {{LogRole::power, always(power_w)},
                     {LogRole::irradiance, always(irradiance_wpm2)},
                     {LogRole::temperature, always(temperature_k)}});
}

}  // namespace

// By hand: 80 W at 800 W/m2, back 45 degC: cell 45 + 3 * 0.8 = 47.4 degC;
// 80 / 0.8 / (1 - 0.0035 * 22.4) = 100 / 0.9216 W.
TEST_CASE("normalised rows: by hand and as a single reading is normalised") {
  const double got = normalised(one_row(80.0, 800.0, 318.15))[0];
  CHECK_THAT(got, WithinRel(100.0 / 0.9216, 1e-14));
  const NormalisedReading reading{Power::from_si(80.0), Irradiance::from_si(800.0),
                                  TemperaturePoint::from_celsius(45.0), how.gamma,
                                  how.cell_above_back};
  CHECK_THAT(got, WithinRel(normalised_power(reading).si(), 1e-14));
}

TEST_CASE("normalised rows: what does not count is blank") {
  CHECK(std::isnan(normalised(one_row(made::blank, 800.0, 318.0))[0]));
  CHECK(std::isnan(normalised(one_row(80.0, made::blank, 318.0))[0]));
  CHECK(std::isnan(normalised(one_row(80.0, 800.0, made::blank))[0]));
  CHECK(std::isnan(normalised(one_row(80.0, 199.9, 318.0))[0]));
  CHECK_FALSE(std::isnan(normalised(one_row(80.0, 200.0, 318.0))[0]));
  CHECK(std::isnan(normalised(one_row(0.9, 800.0, 318.0))[0]));
  CHECK_FALSE(std::isnan(normalised(one_row(1.0, 800.0, 318.0))[0]));
  LogNormalisation from_dark = how;
  from_dark.least_irradiance = Irradiance::from_si(0.0);
  CHECK(std::isnan(normalised(one_row(80.0, 0.0, 318.0), from_dark)[0]));
}

TEST_CASE("normalised rows: of the second panel by its own temperature") {
  LogBlock block = one_row(80.0, 800.0, 318.15);
  const detail::NormalisedColumns second{LogRole::power_beside, LogRole::temperature_beside};
  CHECK(detail::can_normalise(block, {}));
  CHECK_FALSE(detail::can_normalise(block, second));
  block.values[index_of(LogRole::power_beside)] = {40.0};
  CHECK_FALSE(detail::can_normalise(block, second));
  block.values[index_of(LogRole::temperature_beside)] = {298.15 - 2.4};  // cell at 25 degC
  REQUIRE(detail::can_normalise(block, second));
  std::vector<double> out;
  detail::fill_normalised(out, block, second, how, Power::from_si(1.0), 0, 1);
  CHECK_THAT(out[0], WithinRel(50.0, 1e-14));
}
