#pragma once

#include <vector>

#include "hailwright/model/stress.hpp"
#include "input/map_reader.hpp"

namespace hailwright::input {

/// The keys of a stress as the registry has them: amounts, counts and words, each in its range.
/// What is wrong is reported and left out. `held` are values that need not stand there.
StressValues read_stress_values(const MapReader& map, const std::vector<StressKey>& keys,
                                const StressValues& held);

/// "pressure: 2400 Pa": how a key is written.
std::string example_of(const StressKey& key);

/// The lists of keys of one kind, made from the registry.
struct StressKeyLists {
  const StressKind* kind = nullptr;
  KeyList planned;  ///< an entry of the protocol: "static load"
  KeyList safety;   ///< its answers: "safety of static load"
  KeyList done;     ///< what was done, in a record: "done of static load"
};

/// As `stress_kinds()`.
const std::vector<StressKeyLists>& stress_key_lists();
const StressKeyLists& stress_key_lists(const StressKind& kind);

}  // namespace hailwright::input
