#pragma once

#include <string>
#include <vector>

#include "hailwright/model/stress.hpp"

namespace hailwright::testing {

/// What a reader makes of "2400 Pa", "3" or "front" under this key; throws where it is not of its
/// form or out of its range.
StressValue stress_value(const StressKey& key, const std::string& text);

/// Values of some keys of a kind, as typed: {{"pressure", "2400 Pa"}}.
struct TypedStress {
  std::string key, text;
};
StressValues planned_values(const StressKind& kind, const std::vector<TypedStress>& typed);
StressValues done_values(const StressKind& kind, const std::vector<TypedStress>& typed);

/// The examples of all keys.
StressValues examples_of(const std::vector<StressKey>& keys);

/// An invented panel of glass, 1.0 m by 0.5 m, and an invented flexible one of 1.1 m by 0.5 m whose
/// maker lets it be bent to 250 mm.
Panel glass_panel();
Panel flexible_panel();
/// The one of the two that a stress is for.
Panel panel_for(const StressKind& kind, const StressValues& planned);

/// Every question answered by its example.
std::map<std::string, SafetyAnswer> good_answers(const StressKind& kind);

/// A stress planned by the examples of its kind, answered.
StressPlan planned_by_examples(const StressKind& kind);

}  // namespace hailwright::testing
