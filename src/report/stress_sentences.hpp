#pragma once

#include <string>
#include <vector>

#include "hailwright/evaluate/assessment.hpp"
#include "report/power_sentences.hpp"

// Every sentence about a stress other than hail.

namespace hailwright {

/// "2400 Pa", "60 min", "front": a value as typed, or what a published level sets.
std::string stress_value_text(const StressKey& key, const StressValue& value);

/// "pressure: 2400 Pa", "held: 60 min", ...: all that was typed or set by the level, in the order
/// of the keys.
std::vector<std::string> stress_value_lines(const std::vector<StressKey>& keys,
                                            const StressValues& values);

/// What was planned of the stress that a verdict is about.
inline const StressPlan& plan_of(const StressVerdict& v, const Test& test) {
  return test.protocol.stresses[test.record.stresses[v.done].stress];
}

/// "static load at the nominal IEC 61215 2400 Pa figures (sandbags)"; without a level its amounts.
std::string stress_text(const StressPlan& plan);

/// What became of the panel, stress after stress, and what was planned and not done; a sentence
/// each. Empty where none was planned.
std::vector<std::string> stress_headlines(const Test& test, const Assessment& assessment);

/// One quantity of what was done against the plan, with its uncertainty and what that rests on.
std::string stress_quantity_sentence(const StressQuantity& quantity);

/// Why a stress got its word, or what else bears on it.
std::string stress_reason_sentence(const StressReason& reason, const StressVerdict& verdict,
                                   const Test& test, const Assessment& assessment);

/// How what was done stood to the plan when damage followed.
std::string stress_damage_sentence(const StressVerdict& v);

/// "not equivalent to MQT 16 of IEC 61215-2: ...".
std::string not_equivalent_sentence(const StressKind& kind);

/// "compared: the stage after sandbags with the stage before". Contract: the verdict has a stage.
std::string stress_stages_sentence(const StressVerdict& verdict, const Test& test,
                                   const Assessment& assessment);

/// "on 2026-06-15, after the shots".
std::string stress_day_text(const StressDone& done, const Record& record);

}  // namespace hailwright
