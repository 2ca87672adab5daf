// The cautions of a plan, and its own figures behind them.
#include <fmt/format.h>

#include <algorithm>

#include "hailwright/core/quantity_text.hpp"
#include "hailwright/safety/gate.hpp"
#include "hailwright/safety/stored_gas.hpp"
#include "hailwright/safety/yardsticks.hpp"
#include "safety/gate_checks.hpp"

namespace hailwright {

namespace {

using gate::Case;

std::optional<bool> yes_or_no(const Case& c, std::string_view block, std::string_view key) {
  if (c.is(block, key, "yes")) return true;
  if (c.is(block, key, "no")) return false;
  return std::nullopt;
}

CautionFacts facts_of(const Case& c) {
  const PlanDangers& d = c.dangers();
  CautionFacts facts;
  facts.launches = true;
  facts.energy = d.muzzle_energy;
  facts.energy_per_area = d.per_area;
  facts.launcher = d.launcher;
  facts.panel_present = true;
  facts.open_voltage_cold = c.highest_voltage();
  facts.ball = d.freezer;
  facts.dry_ice = yes_or_no(c, "ice", "dry_ice");
  facts.installed = yes_or_no(c, "panel", "installed");
  facts.high_voltage_test = yes_or_no(c, "panel", "high_voltage_test");
  facts.broken = true;  // a plan to strike a panel cannot rule it out
  facts.power_station = d.power_station.value_or(d.reads_power);
  facts.published = true;
  return facts;
}

std::string energy_figure(const PlanDangers& d) {
  return gate::in_joules(d.muzzle_energy) + " at the muzzle";
}

std::string eyewear_figure(const PlanDangers& d) {
  const Yardstick* outdone = strongest_eyewear_below(d.muzzle_energy);
  if (outdone == nullptr) return energy_figure(d);
  return fmt::format("{}, as much as {} is proved with ({}), or more", energy_figure(d),
                     outdone->name, gate::in_joules(outdone->energy));
}

std::string voltage_figure(const Case& c) {
  const auto highest = c.highest_voltage();
  if (!highest) return "the voltage is not known";
  return fmt::format("{} when cold{}", in_unit(*highest, "V", 1),
                     c.a_voltage_is_unknown() ? ", and a voltage that is not known" : "");
}

std::string gas_figure(const Case& c) {
  const auto pressure = c.pressure();
  const auto volume = c.volume();
  if (!c.holds_gas() || !pressure || !volume) return {};
  const StoredGas stored = stored_gas(*pressure, *volume);
  return fmt::format("{} l at {} bar above the air outside hold {} to {}",
                     significant(volume->si() * 1000.0, 3), significant(pressure->si() / 1e5, 3),
                     gate::in_joules(stored.lower), gate::in_joules(stored.upper));
}

}  // namespace

std::vector<const Caution*> plan_hazards(const PlanDangers& dangers, const SafetyAnswers& answers) {
  const Case c(answers, dangers, 0);
  std::vector<const Caution*> shown = cautions_for(facts_of(c));
  // Beside a panel of known voltage, one of unknown voltage shows the caution that speaks for it.
  const Caution* wet = &caution("dc_wet");
  if (c.a_voltage_is_unknown() && std::find(shown.begin(), shown.end(), wet) == shown.end()) {
    shown.insert(std::upper_bound(shown.begin(), shown.end(), wet), wet);
  }
  return shown;
}

std::string plan_figure(const Caution& caution, const PlanDangers& dangers,
                        const SafetyAnswers& answers) {
  const Case c(answers, dangers, 0);
  const std::string_view id = caution.id;
  if (id.starts_with("body_hit_") || id == "heart_blow") return energy_figure(dangers);
  if (id.starts_with("eye_protection_")) return eyewear_figure(dangers);
  if (id == "eye_globe")
    return significant(dangers.per_area.si(), 3) + " J per m2 of its cross-section";
  if (id == "missed_ball" && c.flies_forward()) {
    return fmt::format("first contact of a miss up to {} away; it bounces and rolls farther",
                       gate::in_metres_up(dangers.no_air_reach));
  }
  if (id == "stored_air_energy") return gas_figure(c);
  if (id == "drop_height" && dangers.drop_height)
    return "a fall of " + in_unit(*dangers.drop_height, "m", 1);
  if (id.starts_with("dc_")) return voltage_figure(c);
  if (id == "dry_ice" && dangers.freezer)
    return fmt::format("balls at {} degC", fixed(dangers.freezer->celsius(), 0));
  return {};
}

}  // namespace hailwright
