#include "safety/gate_checks.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "hailwright/core/calendar.hpp"
#include "hailwright/safety/stored_gas.hpp"
#include "input/sides_text.hpp"

namespace hailwright::gate {

namespace {

using Limits = CautionLimits;

bool needs_screen(const Case& c) {
  return c.energy() >= Limits::eyewear_mid || c.outdoes_eyewear("thrower");
}

/// Why a screen is asked for, or what would do without one.
std::string eyewear_note(const Case& c, std::string_view key, std::string_view otherwise) {
  if (c.energy() >= Limits::eyewear_high)
    return fmt::format("behind a screen: no usual eyewear is proved with {}",
                       in_joules(c.energy()));
  if (c.answer("eyes", key) == nullptr)
    return fmt::format("behind a screen; or {}, in eyewear proved with more than {}", otherwise,
                       in_joules(c.energy()));
  return fmt::format("behind a screen: the ball carries {}, as much as that eyewear is proved with",
                     in_joules(c.energy()));
}

}  // namespace

bool always(const Case& /*unused*/) {
  return true;
}
bool machine(const Case& c) {
  return c.by_machine();
}
bool forward(const Case& c) {
  return c.flies_forward();
}
bool drop(const Case& c) {
  return c.launched_by(Launcher::drop);
}
bool gas(const Case& c) {
  return c.holds_gas();
}

// Who lets off the shot, and how.

bool lets_off_asked(const Case& c) {
  return c.by_machine() || (c.launched_by(Launcher::throw_by_hand) && c.is_serious());
}
bool lets_off_enough(const Case& c, const std::string& answer) {
  return c.by_machine() && (answer == "cord from the side" || answer == "remote switch");
}
std::string lets_off_wanted(const Case& c) {
  if (c.by_machine()) return "cord from the side or remote switch";
  return fmt::format("another launcher: a ball of {} is not thrown by hand", in_joules(c.energy()));
}

bool thrower_enough(const Case& c, const std::string& answer) {
  return answer == "behind a screen" || (answer == "without a screen" && !needs_screen(c));
}
std::string thrower_wanted(const Case& c) {
  if (!needs_screen(c)) return "behind a screen or without a screen";
  if (c.energy() >= Limits::eyewear_mid)
    return fmt::format("behind a screen, for a ball of {}", in_joules(c.energy()));
  return eyewear_note(c, "thrower", "without a screen");
}

bool others_enough(const Case& c, const std::string& answer) {
  return answer == "behind a screen" ||
         (answer == "10 m away or more" && !c.outdoes_eyewear("everyone"));
}
std::string others_wanted(const Case& c) {
  if (c.outdoes_eyewear("everyone")) return eyewear_note(c, "everyone", "10 m away or more");
  return "behind a screen or 10 m away or more";
}

// Eyes.

bool everyone_enough(const Case& /*unused*/, const std::string& answer) {
  return proved_with(answer) && has_side_cover(answer);
}
bool thrower_eyes_enough(const Case& c, const std::string& answer) {
  if (!everyone_enough(c, answer)) return false;
  return c.energy() < Limits::eyewear_mid || is_shield_over_goggles(answer);
}
std::string thrower_eyes_wanted(const Case& c) {
  if (c.energy() < Limits::eyewear_mid) return "goggles, or a face shield over goggles";
  return fmt::format("a face shield over goggles, for a ball of {}", in_joules(c.energy()));
}

// Gas under pressure.

bool pressure_part_enough(const Case& c, const std::string& answer) {
  if (answer == "none") return !c.launched_by(Launcher::compressed_air);
  return answer == "approved vessel with relief valve";
}
std::string pressure_part_wanted(const Case& c) {
  return c.launched_by(Launcher::compressed_air) ? "approved vessel with relief valve"
                                                 : "none, or approved vessel with relief valve";
}
bool pressure_enough(const Case& c, const std::string& /*unused*/) {
  return c.pressure().has_value();
}
/// Gas that drives the ball holds more than the ball then carries; if not, one of the two answers
/// is a slip.
bool volume_enough(const Case& c, const std::string& /*unused*/) {
  const auto volume = c.volume();
  const auto pressure = c.pressure();
  if (!volume) return false;
  if (!pressure || !c.launched_by(Launcher::compressed_air)) return true;
  return stored_gas(*pressure, *volume).upper > c.energy();
}
std::string volume_wanted(const Case& c) {
  if (!c.volume()) return "a volume above 0 l";
  return fmt::format("more: at this pressure it stores no more than the {} of the ball; mend "
                     "the one that is wrong",
                     in_joules(c.energy()));
}

// A drop.

bool dropped_from_enough(const Case& c, const std::string& answer) {
  if (answer == "behind a rail") return true;
  const auto height = c.dangers().drop_height;
  return answer == "on the ground" && height && *height < GateLimits::working_height;
}
std::string dropped_from_wanted(const Case& c) {
  const auto height = c.dangers().drop_height;
  if (height && *height < GateLimits::working_height) return "behind a rail or on the ground";
  if (!height) return "behind a rail: the height of the fall is not stated";
  return fmt::format("behind a rail, for a fall of {}", in_unit(*height, "m", 1));
}

// Where misses end.

bool backstop_asked(const Case& c) {
  return c.flies_forward() && (c.is_serious() || !c.is("ground", "misses_end_in", "clear ground"));
}
bool clear_ground_asked(const Case& c) {
  return c.flies_forward() && !c.is_serious() && !c.is("ground", "misses_end_in", "backstop");
}
bool misses_enough(const Case& c, const std::string& answer) {
  return answer == "backstop" || (answer == "clear ground" && !c.is_serious());
}
std::string misses_wanted(const Case& c) {
  if (c.is_serious()) return fmt::format("backstop, for a ball of {}", in_joules(c.energy()));
  return "backstop; or clear ground, with clear_ahead in place of the lines of the backstop";
}
bool backstop_enough(const Case& c, const std::string& answer) {
  const auto sides = input::read_sides(answer, 2, 2);
  if (!sides.value) return false;
  const Length least = c.dangers().panel_long_side.value_or(Length{});
  return std::all_of(sides.value->begin(), sides.value->end(),
                     [&](Length side) { return side > least; });
}
std::string backstop_wanted(const Case& c) {
  const auto least = c.dangers().panel_long_side;
  if (!least) return "width x height, both larger than the panel";
  return fmt::format("width x height, both more than the {} of the panel", in_unit(*least, "m", 2));
}
bool clear_ahead_enough(const Case& c, const std::string& answer) {
  const auto clear = read_quantity<Length>(answer);
  return clear.value && *clear.value >= c.dangers().no_air_reach;
}
std::string clear_ahead_wanted(const Case& c) {
  return fmt::format("at least {}, or a backstop with closed sides in its place",
                     in_metres_up(c.dangers().no_air_reach));
}

// Panel.

bool wet_voltage(const Case& c) {
  return c.voltage_from(Limits::dc_wet);
}
bool dry_voltage(const Case& c) {
  return c.voltage_from(Limits::dc_dry);
}
std::string wired_by_wanted(const Case& c) {
  if (!c.a_voltage_is_unknown()) return "a qualified person";
  return "a qualified person; or state open_voltage of every panel in its file";
}

// Who answered, and when.

bool initials_enough(const Case& /*unused*/, const std::string& answer) {
  constexpr std::size_t longest_bytes = 20;  // initials, in any script [ours]
  const auto letter = [](char c) {
    return (c >= 'A' && c <= 'Z') || (c >= 'a' && c <= 'z') ||
           (static_cast<unsigned>(c) & 0x80U) != 0U;
  };
  return answer.size() <= longest_bytes && std::any_of(answer.begin(), answer.end(), letter);
}
bool date_enough(const Case& c, const std::string& answer) {
  const auto day = day_number(answer);
  return day && *day <= c.today() && c.today() - *day <= GateLimits::oldest_answer_days;
}
std::string date_wanted(const Case& /*unused*/) {
  return fmt::format("the day on which this was answered, at most {} days ago",
                     GateLimits::oldest_answer_days);
}

std::string in_joules(Energy energy) {
  return significant(energy.si(), 3) + " J";
}

std::string in_metres_up(Length length) {
  return fixed(std::ceil(length.si()), 0) + " m";
}

}  // namespace hailwright::gate
