#include "evaluate/caution_facts.hpp"

#include <algorithm>

#include "hailwright/physics/impact.hpp"

namespace hailwright {

namespace {

/// Upper values of the hardest throw. Speeds at the launcher are higher than at the panel; what the
/// ball lost on the way is given back by the ratio of the trial speed to that at the panel.
void add_energies(const Test& test, const Assessment& a, CautionFacts& facts) {
  for (const SeriesDelivery& d : a.delivery) {
    if (!d.at_most) continue;
    double lost = 1.0;
    if (d.trial_speed_at_panel) lost = d.trials->mean.si() / d.trial_speed_at_panel->si();
    const Energy energy = *d.at_most * (lost * lost);
    const Length diameter = test.protocol.series[d.series].target.diameter;
    const EnergyPerArea area = energy_per_cross_section(energy, diameter);
    facts.energy = facts.energy ? std::max(*facts.energy, energy) : energy;
    facts.energy_per_area = facts.energy_per_area ? std::max(*facts.energy_per_area, area) : area;
  }
}

bool is_broken(const Record& record) {
  return std::any_of(record.looks.begin(), record.looks.end(), [](const Look& look) {
    return std::any_of(look.saw.begin(), look.saw.end(), [](const Finding& f) {
      return f.kind->word.starts_with("broken") || f.kind->word == "live part";
    });
  });
}

}  // namespace

CautionFacts caution_facts(const Test& test, const Assessment& a) {
  const Record& record = test.record;
  CautionFacts facts;
  facts.launches = !record.shots.empty();
  add_energies(test, a, facts);
  facts.launcher = test.protocol.launch.kind;
  facts.panel_present = true;
  facts.open_voltage_cold = coldest_open_voltage(record.panel);
  for (const Reading& r : record.readings) {
    if (!r.measured) continue;
    facts.hottest_panel =
        facts.hottest_panel ? std::max(*facts.hottest_panel, r.temperature) : r.temperature;
  }
  facts.panel_at_shots = record.panel_at_shots;
  facts.ball = test.protocol.ice.freezer;
  // The formats have no way to record an insulation test, so none was planned.
  facts.high_voltage_test = false;
  facts.broken = is_broken(record);
  facts.shaded = !record.shading.empty();
  facts.power_station = names_power_station(test.protocol.measure.load);
  facts.published = true;
  for (const StressDone& done : record.stresses)
    facts.stresses.push_back(test.protocol.stresses[done.stress].kind->word);
  return facts;
}

}  // namespace hailwright
