// When the gate asks what, and what is enough. The figures are in CautionLimits and GateLimits;
// what a rule demands is what the cautions that it names demand, in src/safety/cautions.cpp.
#include "safety/gate_rules.hpp"

#include <array>
#include <vector>

#include "safety/gate_checks.hpp"

namespace hailwright::gate {

namespace {

constexpr std::string_view every = "every launch";
constexpr std::string_view machines = "every launcher but a drop and a throw by hand";
constexpr std::string_view but_drop = "every launch but a drop";
constexpr std::string_view with_gas = "compressed air, or gas answered";

constexpr std::array launcher_rules{
    Rule{"launcher",
         "released_by",
         "body_hit_serious elastic_launcher air_misfire ball_machine",
         "every launcher but a drop; a throw by hand from 14.9 J",
         lets_off_asked,
         {},
         "cord from the side or remote switch; nothing for a throw by hand",
         lets_off_enough,
         lets_off_wanted},
    Rule{"launcher", "inspected", "elastic_launcher stored_air_energy ball_machine", machines,
         machine, "yes"},
    Rule{"launcher", "unloaded_first", "bystanders", every, always, "yes"},
    Rule{"launcher", "aimed_up", "missed_ball", but_drop, forward, "no"},
    Rule{"launcher", "law_asked", "law_launchers", "compressed air, spring, elastic, other",
         [](const Case& c) {
           return c.launched_by(Launcher::compressed_air, Launcher::spring, Launcher::elastic,
                                Launcher::other);
         },
         "yes"},
    Rule{"launcher", "muzzle_clear", "air_misfire", "compressed air, spring, other",
         [](const Case& c) {
           return c.launched_by(Launcher::compressed_air, Launcher::spring, Launcher::other);
         },
         "yes"},
    Rule{"launcher",
         "pressure_part",
         "pvc_pressure stored_air_energy",
         every,
         always,
         {},
         "none, but not for compressed air; or approved vessel with relief valve",
         pressure_part_enough,
         pressure_part_wanted},
    Rule{"launcher",
         "pressure",
         "stored_air_energy",
         with_gas,
         gas,
         {},
         "more than 0 bar",
         pressure_enough},
    Rule{"launcher",
         "volume",
         "stored_air_energy",
         with_gas,
         gas,
         {},
         "more than 0 l, and enough to drive the ball",
         volume_enough,
         volume_wanted},
    Rule{"launcher", "vented_first", "stored_air_energy", with_gas, gas, "yes"},
    Rule{"launcher", "ears", "stored_air_energy", with_gas, gas, "protected"},
    Rule{"launcher", "unplugged_to_clear", "ball_machine", "ball machine",
         [](const Case& c) { return c.launched_by(Launcher::ball_machine); }, "yes"},
    Rule{"launcher",
         "dropped_from",
         "drop_height",
         "drop",
         drop,
         {},
         "behind a rail; on the ground for a fall below 1.8 m",
         dropped_from_enough,
         dropped_from_wanted},
    Rule{"launcher", "cordon_below", "drop_height", "drop", drop, "yes"},
};

constexpr std::array people_rules{
    Rule{"people", "in_front", "body_hit_any bystanders", every, always, "nobody"},
    Rule{"people",
         "others",
         "body_hit_serious eye_protection_high eye_protection_mid eye_protection_low fragments",
         every,
         always,
         {},
         "behind a screen; 10 m away or more where eyes: everyone is proved with more than the "
         "ball carries",
         others_enough,
         others_wanted},
    Rule{"people",
         "thrower",
         "body_hit_serious eye_protection_high eye_protection_mid eye_protection_low fragments",
         but_drop,
         forward,
         {},
         "behind a screen; without a screen below 6.19 J where eyes: thrower is proved with more "
         "than the ball carries",
         thrower_enough,
         thrower_wanted},
    Rule{"people", "lookout", "bystanders work_alone", every, always, "yes"},
    Rule{"people", "children_away", "heart_blow bystanders", every, always, "yes"},
    Rule{"people", "sober", "work_alone", every, always, "yes"},
    Rule{"people", "first_aid", "heart_blow work_alone", every, always, "yes"},
};

constexpr std::string_view with_backstop =
    "every launch but a drop, from 14.9 J or unless misses end in clear ground";

constexpr std::array ground_rules{
    Rule{"ground",
         "misses_end_in",
         "body_hit_serious missed_ball",
         but_drop,
         forward,
         {},
         "backstop; clear ground below 14.9 J",
         misses_enough,
         misses_wanted},
    Rule{"ground",
         "backstop",
         "backstop",
         with_backstop,
         backstop_asked,
         {},
         "both sides more than the longest side of all panels, where that is known",
         backstop_enough,
         backstop_wanted},
    Rule{"ground", "backstop_of", "backstop", with_backstop, backstop_asked,
         "heavy cloth before a board|net before a board|earth bank"},
    Rule{"ground", "sides", "backstop", with_backstop, backstop_asked, "closed"},
    Rule{"ground",
         "clear_ahead",
         "missed_ball",
         "every launch below 14.9 J but a drop, unless misses end in a backstop",
         clear_ground_asked,
         {},
         "at least the reach of a miss that the plan reckons",
         clear_ahead_enough,
         clear_ahead_wanted},
    Rule{"ground", "beyond_the_panel", "backstop missed_ball", but_drop, forward, "nobody"},
    Rule{"ground", "owner_agrees", "property", every, always, "yes"},
    Rule{"ground", "windows_and_cars", "property", every, always, "out of reach"},
    Rule{"ground", "place", "body_hit_severe", "from 33.89 J",
         [](const Case& c) { return c.energy() >= CautionLimits::severe; }, "closed range"},
};

constexpr std::array eyes_rules{
    Rule{"eyes",
         "everyone",
         "eye_protection_low fragments",
         every,
         always,
         {},
         "goggles, or a face shield over goggles",
         everyone_enough},
    Rule{"eyes",
         "thrower",
         "eye_globe eye_protection_high eye_protection_mid eye_protection_low elastic_launcher "
         "fragments",
         every,
         always,
         {},
         "the same; from 6.19 J a face shield over goggles",
         thrower_eyes_enough,
         thrower_eyes_wanted},
};

constexpr std::array panel_rules{
    Rule{"panel", "faces", "pv_energised", every, always, "covered"},
    Rule{"panel", "leads", "dc_class3 pv_energised", every, always, "capped"},
    Rule{"panel", "load", "arc pv_energised", every, always, "off"},
    Rule{"panel", "installed", "installed_array", every, always, "no"},
    Rule{"panel", "high_voltage_test", "hv_test", every, always, "no"},
    Rule{"panel", "gloves", "dc_wet", "a panel of 30 V or more when cold, or of unknown voltage",
         wet_voltage, "insulated"},
    Rule{"panel",
         "wired_by",
         "dc_dry dc_wet",
         "a panel of 60 V or more when cold, or of unknown voltage",
         dry_voltage,
         "a qualified person",
         {},
         nullptr,
         wired_by_wanted},
};

constexpr std::array other_rules{
    Rule{"ice", "handled_with", "ice_handling", every, always, "dry gloves|tongs"},
    Rule{"ice", "dry_ice", "dry_ice", every, always, "no|yes"},
    Rule{"ice", "dry_ice_kept", "dry_ice", "dry ice is used",
         [](const Case& c) { return c.is("ice", "dry_ice", "yes"); }, "open and aired"},
    Rule{"after", "panel_goes", "heavy_metals reuse_tested_panel", every, always,
         "kept and marked|returned and marked|electronic waste"},
    Rule{"after", "sold_or_installed", "reuse_tested_panel", every, always, "never"},
    Rule{"after", "charging", "hot_spot", every, always, "attended|never"},
    Rule{"agreed", "by", "", every, always, {}, "initials", initials_enough},
    Rule{"agreed",
         "on",
         "",
         every,
         always,
         {},
         "a day of the last 30, not after today",
         date_enough,
         date_wanted},
};

constexpr std::array unasked{
    Unasked{"body_hit_lethal", "refused, whatever is answered"},
    Unasked{"dc_elv", "refused, whatever is answered"},
    Unasked{"broken_glass", "shown with every plan; it asks for nothing before something breaks"},
    Unasked{"hot_surface", "shown with every plan; the temperature is known on the day alone"},
    Unasked{"shaded_part", "shown with what was read in the shade; no plan asks for it"},
    Unasked{"thermal_shock", "spoils the result; the record states the temperature at the shots"},
    Unasked{"power_station_voltage",
            "endangers the power station; no file states the voltage that its input bears"},
    Unasked{"claims", "concerns the write-up"},
};

/// "yes|no" in words.
std::string words_of_list(std::string_view list) {
  std::string out;
  while (true) {
    const std::size_t bar = list.find('|');
    out += list.substr(0, bar);
    if (bar == std::string_view::npos) return out;
    list.remove_prefix(bar + 1);
    out += list.find('|') == std::string_view::npos ? " or " : ", ";
  }
}

bool in_list(std::string_view list, std::string_view word) {
  while (true) {
    const std::size_t bar = list.find('|');
    if (list.substr(0, bar) == word) return true;
    if (bar == std::string_view::npos) return false;
    list.remove_prefix(bar + 1);
  }
}

}  // namespace

std::span<const Rule> rules() {
  static const std::vector<Rule> joined = [] {
    std::vector<Rule> all;
    for (const std::span<const Rule> part :
         {std::span<const Rule>(launcher_rules), std::span<const Rule>(people_rules),
          std::span<const Rule>(ground_rules), std::span<const Rule>(eyes_rules),
          std::span<const Rule>(panel_rules), std::span<const Rule>(other_rules)})
      all.insert(all.end(), part.begin(), part.end());
    return all;
  }();
  return joined;
}

std::string enough_in_words(const Rule& rule) {
  return rule.page.empty() ? words_of_list(rule.good) : std::string(rule.page);
}

bool is_enough(const Rule& rule, const Case& c, const std::string& answer) {
  return rule.enough != nullptr ? rule.enough(c, answer) : in_list(rule.good, answer);
}

std::string wanted_in_words(const Rule& rule, const Case& c) {
  return rule.wanted != nullptr ? rule.wanted(c) : enough_in_words(rule);
}

std::span<const Unasked> unasked_cautions() {
  return unasked;
}

}  // namespace hailwright::gate
