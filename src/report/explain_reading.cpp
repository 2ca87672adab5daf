// Step 1 of an explanation: a reading becomes a number that can be compared.
#include "report/explanation.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "hailwright/core/quantity_text.hpp"
#include "hailwright/physics/normalised_power.hpp"
#include "report/sentences.hpp"
#include "report/words.hpp"

namespace hailwright {

namespace {

/// q of one reading, number by number.
std::vector<std::string> worked(const NormalisedReading& r) {
  const std::array<double, error_slots> none{};
  const PowerFactors<double> f = power_factors(r, none);
  const double cell_c = r.back.celsius() + r.cell_above_back.si() * f.suns;
  const double q = log_normalised_power(r, none);
  std::vector<std::string> lines{
      fmt::format("P = {} W, G = {} W/m2, T = {} degC, gamma = {} %/K, dT = {} K",
                  as_typed(r.power.si()), as_typed(r.irradiance.si()), as_typed(r.back.celsius()),
                  as_typed(100.0 * r.gamma.si()), as_typed(r.cell_above_back.si())),
      fmt::format("Tc = {} + {} x {} = {} degC", as_typed(r.back.celsius()),
                  as_typed(r.cell_above_back.si()), as_typed(f.suns), as_typed(cell_c)),
      fmt::format("q = ln {} - ln {} - ln(1 + ({}) x {}) = {} - ({}) - ({}) = {}",
                  as_typed(r.power.si()), as_typed(f.suns), as_typed(r.gamma.si()),
                  as_typed(cell_c - 25.0), six(std::log(f.power)), six(std::log(f.suns)),
                  six(std::log(f.temperature)), six(q)),
      fmt::format("that is e^q = {} W", fixed(std::exp(q), 3))};
  return lines;
}

}  // namespace

namespace {

/// The row behind the first term, found by its values.
const Reading* first_reading(const PowerCase& power) {
  const PowerModel::Term& first = power.model().terms.front();
  const auto& readings = power.test.record.readings;
  const auto found = std::find_if(readings.begin(), readings.end(), [&](const Reading& r) {
    return r.measured && r.skip.empty() && r.power == first.reading.power &&
           r.irradiance == first.reading.irradiance &&
           r.temperature.kelvin() == first.reading.back.kelvin();
  });
  return found == readings.end() ? nullptr : &*found;
}

}  // namespace

Step explain_reading(const PowerCase& power) {
  const PowerModel::Term& first = power.model().terms.front();
  std::string which = "the first one that counts";
  if (const Reading* r = first_reading(power)) {
    which +=
        fmt::format(", of the {}, in set-up '{}'{}", panel_text(*r, power.test.record),
                    power.test.record.setups[r->setup].name, place_text(power.sources, r->origin));
  }
  Step step;
  step.title = "1. One reading";
  step.what = {"A reading of power P at irradiance G and temperature T becomes q, the logarithm of "
               "the power that the panel would give at 1000 W/m2 and 25 degC. Differences of "
               "logarithms are ratios of powers, so that a factor in all readings drops out. "
               "Below is " +
               which + "."};
  step.formula = {"q = ln P - ln(G / 1000 W/m2) - ln(1 + gamma (Tc - 25 degC))",
                  "Tc = T + dT G / (1000 W/m2), the temperature of the cells"};
  step.here = worked(first.reading);
  step.source = "rule M2; inverse of the linear model of a panel's power; cell above back after "
                "King et al. 2004 (SAND2004-3535)";
  step.pages = method_pages({"normalised-power"});
  return step;
}

}  // namespace hailwright
