#pragma once

#include <cstddef>
#include <optional>
#include <vector>

#include "hailwright/model/protocol.hpp"
#include "hailwright/model/record.hpp"
#include "input/map_reader.hpp"

namespace hailwright::input {

inline constexpr KeyList look_keys{"this look", "when date saw photos"};
/// Beside the word of what was seen.
inline constexpr KeyList finding_keys{"this finding", "share photo"};

/// Reads the list of looks at the panel. The protocol has neither series nor stresses when it could
/// not be read: then nothing is said about when. `shots` is nullptr when their table could not be
/// read: then throws are not looked up in it.
std::vector<Look> read_looks(const std::vector<Node>& items, const Protocol& protocol,
                             const std::vector<Shot>* shots, Diagnostics& notes);

/// Holds the dates of the looks against the day of the shots, and against each other in the order
/// of the throws. After the stresses of the record were read; those hold looks against themselves.
void check_look_days(const Record& record, const Protocol& protocol, Diagnostics& notes);

/// Whether what comes after this stress of the protocol comes before the shots of the record: the
/// stress was done before them. Not for no stress, nor where nothing was thrown.
bool follows_stress_before_shots(const Record& record, std::optional<std::size_t> stress);

}  // namespace hailwright::input
