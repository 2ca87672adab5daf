// When each caution is shown. The words are in cautions.cpp and, of another stress than hail, in
// its file of src/model/stresses; the figures are in CautionLimits.

#include <algorithm>
#include <array>
#include <span>

#include "hailwright/core/contract.hpp"
#include "hailwright/safety/cautions.hpp"
#include "safety/caution_lists.hpp"

namespace hailwright {
namespace {

using Facts = CautionFacts;
using Limits = CautionLimits;

/// A launch whose energy reaches the limit, or cannot be said not to.
bool launch_from(const Facts& facts, Energy limit) {
  return facts.launches && (!facts.energy || *facts.energy >= limit);
}

bool panel_struck(const Facts& facts) {
  return facts.launches && facts.panel_present;
}

/// The voltage is known and reaches the limit; `dc_wet` alone speaks for an unknown one.
bool voltage_from(const Facts& facts, Voltage limit) {
  return facts.panel_present && facts.open_voltage_cold && *facts.open_voltage_cold >= limit;
}

/// The launcher is one of these kinds, or not stated at all.
template <class... Kinds>
bool launched_by(const Facts& facts, Kinds... kinds) {
  return facts.launches && (!facts.launcher || ((*facts.launcher == kinds) || ...));
}

bool dry_ice_possible(const Facts& facts) {
  if (!facts.launches || !facts.ice) return false;
  if (facts.dry_ice) return *facts.dry_ice;
  return !facts.ball || *facts.ball < Limits::household_freezer;
}

struct Trigger {
  std::string_view id;
  bool (*shown)(const Facts&);
};

constexpr std::array people_and_eyes{
    Trigger{"body_hit_lethal", [](const Facts& f) { return launch_from(f, Limits::lethal); }},
    // Dropped where a known energy reaches the rung above: that one forbids the home and leaves
    // only the laboratory, so it holds all that this one asks, which still allows a closed range.
    // With an unknown energy either may be the one that applies.
    Trigger{"body_hit_severe",
            [](const Facts& f) {
              return launch_from(f, Limits::severe) && !(f.energy && *f.energy >= Limits::lethal);
            }},
    // Kept beside the rungs above: only this one asks for a screen and a full backstop.
    Trigger{"body_hit_serious", [](const Facts& f) { return launch_from(f, Limits::serious); }},
    // Kept: only this one speaks of children, of the defibrillator and of calling help.
    Trigger{"heart_blow", [](const Facts& f) { return launch_from(f, Limits::heart_blow); }},
    // Kept: only this one says where nobody may stand.
    Trigger{"body_hit_any", [](const Facts& f) { return launch_from(f, Limits::toy); }},
    Trigger{"bystanders", [](const Facts& f) { return f.launches; }},
    Trigger{"missed_ball", [](const Facts& f) { return f.launches; }},
    Trigger{"backstop", [](const Facts& f) { return f.launches; }},
    Trigger{"fragments", [](const Facts& f) { return f.launches; }},
    Trigger{"work_alone", [](const Facts& f) { return f.launches; }},
    Trigger{"property", [](const Facts& f) { return f.launches; }},
    Trigger{"eye_globe",
            [](const Facts& f) {
              return f.launches && (!f.energy_per_area || *f.energy_per_area >= Limits::eye_globe);
            }},
    // The rungs of eyewear are all kept: `high` names no eyewear to put on, `mid` asks for shield
    // and screen but not for side cover nor for everybody, `low` does.
    Trigger{"eye_protection_high",
            [](const Facts& f) { return launch_from(f, Limits::eyewear_high); }},
    Trigger{"eye_protection_mid",
            [](const Facts& f) { return launch_from(f, Limits::eyewear_mid); }},
    Trigger{"eye_protection_low",
            [](const Facts& f) { return launch_from(f, Limits::eyewear_low); }},
};

// `other` may mix any stored energy with any barrel; a person who drops balls or owns a ball
// machine has a word for it.
constexpr std::array launcher{
    Trigger{
        "pvc_pressure",
        [](const Facts& f) { return launched_by(f, Launcher::compressed_air, Launcher::other); }},
    Trigger{
        "stored_air_energy",
        [](const Facts& f) { return launched_by(f, Launcher::compressed_air, Launcher::other); }},
    Trigger{"air_misfire",
            [](const Facts& f) {
              return launched_by(f, Launcher::compressed_air, Launcher::spring, Launcher::other);
            }},
    Trigger{"elastic_launcher",
            [](const Facts& f) {
              return launched_by(f, Launcher::sling, Launcher::elastic, Launcher::spring,
                                 Launcher::other);
            }},
    Trigger{"ball_machine", [](const Facts& f) { return launched_by(f, Launcher::ball_machine); }},
    Trigger{"drop_height", [](const Facts& f) { return launched_by(f, Launcher::drop); }},
    // Kinds that can have a barrel. At any energy: the 1 J is of one country only.
    Trigger{"law_launchers",
            [](const Facts& f) {
              return launched_by(f, Launcher::compressed_air, Launcher::spring, Launcher::elastic,
                                 Launcher::other);
            }},
};

constexpr std::array panel_and_after{
    // The steps of voltage are all kept: none holds what the one below asks.
    Trigger{"dc_elv",
            [](const Facts& f) {
              return f.panel_present && f.open_voltage_cold &&
                     *f.open_voltage_cold > Limits::dc_elv;
            }},
    Trigger{"dc_dry", [](const Facts& f) { return voltage_from(f, Limits::dc_dry); }},
    Trigger{"dc_class3", [](const Facts& f) { return voltage_from(f, Limits::dc_class3); }},
    Trigger{"dc_wet",
            [](const Facts& f) {
              return voltage_from(f, Limits::dc_wet) || (f.panel_present && !f.open_voltage_cold);
            }},
    Trigger{"broken_glass", [](const Facts& f) { return f.broken; }},
    Trigger{"pv_energised", [](const Facts& f) { return f.panel_present; }},
    Trigger{"arc", [](const Facts& f) { return f.panel_present; }},
    Trigger{"installed_array",
            [](const Facts& f) {
              return (panel_struck(f) || !f.stresses.empty()) && f.installed.value_or(true);
            }},
    Trigger{"hv_test",
            [](const Facts& f) { return f.panel_present && f.high_voltage_test.value_or(true); }},
    Trigger{"hot_surface",
            [](const Facts& f) {
              return f.panel_present &&
                     (!f.hottest_panel || *f.hottest_panel >= Limits::hot_surface);
            }},
    Trigger{"shaded_part", [](const Facts& f) { return f.shaded; }},
    Trigger{"power_station_voltage", [](const Facts& f) { return f.power_station; }},
    Trigger{"thermal_shock",
            [](const Facts& f) {
              return panel_struck(f) && f.ice &&
                     (!f.panel_at_shots || *f.panel_at_shots > Limits::thermal_shock);
            }},
    Trigger{"dry_ice", dry_ice_possible},
    Trigger{"ice_handling", [](const Facts& f) { return f.launches && f.ice; }},
    Trigger{"hot_spot", [](const Facts& f) { return f.panel_present; }},
    Trigger{"reuse_tested_panel", [](const Facts& f) { return f.panel_present; }},
    Trigger{"heavy_metals", [](const Facts& f) { return f.panel_present; }},
    Trigger{"claims", [](const Facts& f) { return f.published; }},
};

const Trigger& rule_of(std::string_view id) {
  const std::array<std::span<const Trigger>, 3> all{people_and_eyes, launcher, panel_and_after};
  for (const auto rules : all)
    for (const Trigger& rule : rules)
      if (rule.id == id) return rule;
  fail_contract("a caution has no trigger");
}

bool is_stressed_by(const Facts& facts, const StressKind& kind) {
  return std::find(facts.stresses.begin(), facts.stresses.end(), kind.word) != facts.stresses.end();
}

}  // namespace

std::vector<const Caution*> cautions_for(const CautionFacts& facts) {
  std::vector<const Caution*> shown;
  for (const Caution& caution : all_cautions()) {
    const StressKind* kind = kind_of_caution(caution.id);
    const bool due =
        kind != nullptr ? is_stressed_by(facts, *kind) : rule_of(caution.id).shown(facts);
    if (due) shown.push_back(&caution);
  }
  return shown;
}

Voltage cold_open_voltage(Voltage at_stc, TemperatureCoefficient beta, TemperaturePoint coldest) {
  const TemperaturePoint stc = TemperaturePoint::from_celsius(25.0);
  return (1.0 + (beta * (coldest - stc)).si()) * at_stc;
}

std::optional<Voltage> coldest_open_voltage(const Panel& panel) {
  if (!panel.open_voltage) return std::nullopt;
  TemperatureCoefficient beta = ColdVoltageDefaults::coefficient;
  if (panel.voltage_coefficient) beta = std::min(beta, *panel.voltage_coefficient);
  if (const auto& stated = panel.voltage_coefficient_stated) {
    // Half-widths hold always; of a standard deviation twice as much is taken.
    const double widths = stated->shape == Shape::normal ? 2.0 : 1.0;
    beta = std::min(beta, stated->value - stated->size * widths);
  }
  return cold_open_voltage(*panel.open_voltage, beta);
}

bool names_power_station(std::string_view load) {
  return load.find("power station") != std::string_view::npos ||
         load.find("controller") != std::string_view::npos;
}

}  // namespace hailwright
