#pragma once

#include <vector>

#include "hailwright/model/record.hpp"
#include "input/map_reader.hpp"

namespace hailwright::input {

inline constexpr KeyList stress_done_keys{"this stress", "name done date after_hail note"};

/// Reads `stresses:` of a record: what was done of those that the protocol plans. `fine` is false
/// when the protocol's stresses could not be read: then nothing is held against them.
std::vector<StressDone> read_stresses_done(const MapReader& record, const Protocol& protocol,
                                           bool fine, Diagnostics& notes);

/// Set-ups and looks after a stress that was not done, or from before its day; days of stresses
/// that contradict the order in which the record says that things were done.
void check_stages_of_stresses(const Record& record, const Protocol& protocol, Diagnostics& notes);

/// What was done of each kind.
std::vector<KeyList> stress_done_key_lists();

}  // namespace hailwright::input
