#pragma once

#include <string>
#include <vector>

#include "hailwright/model/record.hpp"
#include "hailwright/plan/test_plan.hpp"

// Every sentence of a plan that says what may be claimed or what endangers stands here
// (MEASUREMENT M16, M18).

namespace hailwright {

/// Whether it is shown that the rules of a judged test were set before it and are the same still.
bool plan_was_kept(const Test& test);
/// The same in words, with what changed.
std::string plan_kept_sentence(const Test& test);

// What the shots will be able to show.

/// Whether the grade can be shown to be reached.
std::string reach_sentence(const SeriesOutlook& series);
/// "within 5 % of each", and whether that is wider than the grade's own.
std::string tolerance_text(const SeriesOutlook& series, const Target& target);
std::string help_sentence(DeliveryHelp help);
/// Why a number of balls or of nights is missing.
std::string ice_sentence(const SeriesOutlook& series);
/// A simulated probability as whole per cent; its far ends as bounds.
std::string whole_percent(double probability);
/// What a fall from the stated height gives. It never proposes another height.
std::string drop_sentence(const DropOutlook& drop, const SeriesOutlook& series);

// What endangers.

/// How far a miss flies, as a bound.
std::string miss_sentence(const MissOutlook& miss);
/// The hardest ball beside the published yardsticks.
std::string energy_sentence(Energy upper, const MissOutlook& miss);
/// When to stop at once, for the field sheet.
std::vector<std::string> stop_rules();
std::string refusal_sentence(const RefusalFinding& refusal);
std::string finding_sentence(const GateFinding& finding);

}  // namespace hailwright
