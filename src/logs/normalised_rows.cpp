#include "logs/normalised_rows.hpp"

#include <limits>

#include "hailwright/physics/normalised_power.hpp"

namespace hailwright::detail {

bool can_normalise(const LogBlock& block, NormalisedColumns columns) {
  return !block.column(columns.power).empty() && !block.column(LogRole::irradiance).empty() &&
         !block.column(columns.temperature).empty();
}

void fill_normalised(std::vector<double>& into, const LogBlock& block, NormalisedColumns columns,
                     const LogNormalisation& how, Power load_on, std::size_t begin,
                     std::size_t end) {
  constexpr double blank = std::numeric_limits<double>::quiet_NaN();
  constexpr std::array<double, error_slots> no_error{};
  const double* const power = block.column(columns.power).data();
  const double* const irradiance = block.column(LogRole::irradiance).data();
  const double* const temperature = block.column(columns.temperature).data();
  const double least_w = load_on.si();
  const double least_wpm2 = how.least_irradiance.si();
  into.resize(block.rows());
  double* const out = into.data();
  for (std::size_t i = begin; i < end; ++i) {
    const NormalisedReading reading{Power::from_si(power[i]), Irradiance::from_si(irradiance[i]),
                                    TemperaturePoint::from_kelvin(temperature[i]), how.gamma,
                                    how.cell_above_back};
    const PowerFactors<double> f = power_factors(reading, no_error);
    const double factors = f.suns * f.temperature;
    // Without a branch: blank is added to what does not count. A comparison with NaN is false.
    const double power_blank = power[i] >= least_w ? 0.0 : blank;
    const double irradiance_blank = irradiance[i] >= least_wpm2 ? 0.0 : blank;
    const double factor_blank = factors > 0.0 ? 0.0 : blank;
    out[i] = f.power / factors + ((power_blank + irradiance_blank) + factor_blank);
  }
}

}  // namespace hailwright::detail
