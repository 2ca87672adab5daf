#include "support/gate_cases.hpp"

#include "support/catch.hpp"

namespace gate_cases {

using namespace hailwright;

PlanDangers dangers(Launcher launcher, double energy_J) {
  PlanDangers d;
  d.launcher = launcher;
  d.muzzle_energy = Energy::from_si(energy_J);
  d.per_area = EnergyPerArea::from_si(9000.0);
  d.no_air_reach = Length::from_si(53.9);
  d.cold_voltages = {Voltage::from_si(24.3)};
  d.freezer = TemperaturePoint::from_celsius(-18.0);
  d.panel_long_side = Length::from_si(1.02);
  if (launcher == Launcher::drop) d.drop_height = Length::from_si(3.0);
  d.launch_origin = {1, 9, 9, 5};
  return d;
}

std::string name(const GateFinding& f) {
  return f.block + "." + f.key;
}

std::set<std::string> keys(const GateResult& result) {
  std::set<std::string> found;
  for (const GateFinding& f : result.findings)
    found.insert(name(f));
  return found;
}

std::set<std::string> asked(const PlanDangers& d) {
  return keys(Gate::ask({}, d, today));
}

bool clears(const SafetyAnswers& answers, const PlanDangers& d) {
  const GateResult result = Gate::ask(answers, d, today);
  CHECK(result.clearance.has_value() == (result.refusals.empty() && result.findings.empty()));
  return result.clearance.has_value();
}

bool clears_with(const PlanDangers& d, std::string_view block, std::string_view key,
                 std::string_view answer) {
  SafetyAnswers answers = all(d.launcher);
  set(answers, block, key, answer);
  return clears(answers, d);
}

}  // namespace gate_cases
