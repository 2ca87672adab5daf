#pragma once

#include "hailwright/core/diagnostic.hpp"
#include "hailwright/model/protocol.hpp"
#include "input/map_reader.hpp"

namespace hailwright::input {

inline constexpr KeyList launch_keys{
    "launch", "kind distance height aim fastest spread ground_falls altitude air tried hit"};
inline constexpr KeyList ice_keys{"ice", "water freezer weigh moulds made rejected"};

Launch read_launch(const Entry& entry, Diagnostics& notes);
Ice read_ice(const Entry& entry, Diagnostics& notes);

}  // namespace hailwright::input
