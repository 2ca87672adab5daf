#pragma once

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

}  // namespace hailwright::input
