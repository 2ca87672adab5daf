#pragma once

#include <optional>

#include "hailwright/model/protocol.hpp"
#include "input/map_reader.hpp"
#include "input/stated_text.hpp"

namespace hailwright::input {

inline constexpr KeyList tools_keys{"tools", "meter sun thermometer scales calipers"};
inline constexpr KeyList tool_keys{"this tool",
                                   "id accuracy spread within uncertainty step between_stages"};
inline constexpr KeyList sizing_tool_keys{"this tool",
                                          "id accuracy spread within uncertainty step"};
inline constexpr KeyList thermometer_keys{
    "thermometer", "id accuracy spread within uncertainty each_time where kind one_per"};

/// Reads `tools:` of a protocol or `tools_after:` of a record. A tool that is not named keeps an
/// origin with line 0.
Tools read_tools(const Node& node, SourceSpan owner, Diagnostics& notes);

}  // namespace hailwright::input
