#pragma once

#include <string>

#include "safety/gate_case.hpp"

/// The conditions and the demands of the rules in gate_rules.cpp: `..._asked` whether a question is
/// asked, `..._enough` whether an answer is enough, `..._wanted` what is wanted of this plan.
namespace hailwright::gate {

bool always(const Case& c);
bool machine(const Case& c);
bool forward(const Case& c);
bool drop(const Case& c);
bool gas(const Case& c);
bool lets_off_asked(const Case& c);
bool lets_off_enough(const Case& c, const std::string& answer);
std::string lets_off_wanted(const Case& c);
bool thrower_enough(const Case& c, const std::string& answer);
std::string thrower_wanted(const Case& c);
bool others_enough(const Case& c, const std::string& answer);
std::string others_wanted(const Case& c);
bool everyone_enough(const Case& c, const std::string& answer);
bool thrower_eyes_enough(const Case& c, const std::string& answer);
std::string thrower_eyes_wanted(const Case& c);
bool pressure_part_enough(const Case& c, const std::string& answer);
std::string pressure_part_wanted(const Case& c);
bool pressure_enough(const Case& c, const std::string& answer);
bool volume_enough(const Case& c, const std::string& answer);
std::string volume_wanted(const Case& c);
bool dropped_from_enough(const Case& c, const std::string& answer);
std::string dropped_from_wanted(const Case& c);
bool backstop_asked(const Case& c);
bool clear_ground_asked(const Case& c);
bool misses_enough(const Case& c, const std::string& answer);
std::string misses_wanted(const Case& c);
bool backstop_enough(const Case& c, const std::string& answer);
std::string backstop_wanted(const Case& c);
bool clear_ahead_enough(const Case& c, const std::string& answer);
std::string clear_ahead_wanted(const Case& c);
bool wet_voltage(const Case& c);
bool dry_voltage(const Case& c);
std::string wired_by_wanted(const Case& c);
bool initials_enough(const Case& c, const std::string& answer);
bool date_enough(const Case& c, const std::string& answer);
std::string date_wanted(const Case& c);

/// An energy for a message: "8.87 J".
std::string in_joules(Energy energy);
/// A length rounded up to a whole metre: "54 m".
std::string in_metres_up(Length length);

}  // namespace hailwright::gate
