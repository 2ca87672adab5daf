#pragma once

#include <array>
#include <set>
#include <string>
#include <string_view>

#include "hailwright/safety/gate.hpp"
#include "support/safety_answers.hpp"

/// Plans and answers for the tests of the safety gate.
namespace gate_cases {

using safety_answers::all;
using safety_answers::remove;
using safety_answers::set;

inline const std::string today = "2026-06-14";

inline constexpr std::array all_launchers{
    hailwright::Launcher::sling,         hailwright::Launcher::elastic,
    hailwright::Launcher::spring,        hailwright::Launcher::compressed_air,
    hailwright::Launcher::ball_machine,  hailwright::Launcher::drop,
    hailwright::Launcher::throw_by_hand, hailwright::Launcher::other};

/// One panel of 24.3 V and 1.02 m, a reach of 53.9 m, a drop of 3 m; the launch is on line 9.
hailwright::PlanDangers dangers(hailwright::Launcher launcher, double energy_J = 8.9);

/// "people.lookout".
std::string name(const hailwright::GateFinding& finding);
std::set<std::string> keys(const hailwright::GateResult& result);
/// What is asked of a plan without a single answer.
std::set<std::string> asked(const hailwright::PlanDangers& d);
/// Whether the answers open the gate; a clearance and findings beside each other fail the test.
bool clears(const hailwright::SafetyAnswers& answers, const hailwright::PlanDangers& d);
/// The same of whole answers with another one in them.
bool clears_with(const hailwright::PlanDangers& d, std::string_view block, std::string_view key,
                 std::string_view answer);

}  // namespace gate_cases
