#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "hailwright/model/protocol.hpp"
#include "input/map_reader.hpp"

namespace hailwright::input {

inline constexpr KeyList series_keys{"this series",
                                     "name grade ball tolerance places place_size setting"};
inline constexpr KeyList ball_keys{"ball", "diameter mass speed"};
inline constexpr KeyList place_keys{"this place", "name at kind"};

/// Whether something can be called so after which a stage is named; reported when not. `what` is
/// "series" or "stress".
void check_stage_name(const std::string& name, SourceSpan where, std::string_view what,
                      Diagnostics& notes);

/// Reads the list of series, weakest first.
std::vector<SeriesPlan> read_series(const std::vector<Node>& items, Diagnostics& notes);

}  // namespace hailwright::input
