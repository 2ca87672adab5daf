#pragma once

#include <string>
#include <vector>

#include "hailwright/report/compose_threshold.hpp"

// Every sentence on the energy at which specimens are damaged (MEASUREMENT M14, M18).

namespace hailwright {

/// "7.85 J": three digits.
std::string threshold_energy_text(Energy energy);

/// "20 specimens, each struck once: 9 damaged, 11 not; from 4.20 J to 12.4 J".
std::string tested_sentence(const DamageThreshold& threshold);
/// Where the outcomes lie, without a curve.
std::string bracket_sentence(const SpecimenBracket& bracket);
/// Why there is no estimate and what is missing. Without an energy to strike with: such numbers
/// stand behind the gate.
std::string obstacle_sentence(ThresholdObstacle obstacle, const DamageThreshold& threshold);

/// The energy that damages a share of such specimens, with its interval or which side is open.
std::string threshold_sentence(const ThresholdEnergy& energy);
/// The same with an error that all energies share.
std::string shared_error_sentence(const EnergyInterval& interval);
/// Whether the slope is shown and E50 is bounded on a side at least: else nothing is printed bold.
bool shows_threshold(const ThresholdEstimate& estimate);
/// What stands beside an estimate of which that does not hold.
std::string_view hint_only_sentence();
/// How much the energies scatter at which such specimens give way.
std::string scatter_sentence(const ThresholdEstimate& estimate);
/// How the uncertainty of the energies bears on it.
std::string doubt_sentence(const DamageThreshold& threshold);

/// What the sums of the up-and-down test say, or why they say nothing.
std::string staircase_sentence(const StaircaseResult& staircase, const Specimens& specimens);

/// The next test, or why none is printed and what to do.
std::string next_sentence(const ThresholdAnswer& answer);
/// What to copy for it: a command, or a key of the file. Empty where there is nothing.
std::vector<std::string> next_to_copy(const ThresholdAnswer& answer);

/// Of what it holds.
std::string_view threshold_scope_sentence();

}  // namespace hailwright
