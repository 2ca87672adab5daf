#pragma once

#include <string>

#include "hailwright/model/protocol.hpp"

namespace hailwright {

/// "clamp meter 2: 1 % of the reading and 3 steps of the display (half-width); step 0.1 W": what
/// the files say of an instrument. @param unit  of its quantity, from the closed table.
template <class Q>
std::string tool_text(const Tool<Q>& tool, const char* unit);

/// The same of the thermometer, with where it sits.
std::string thermometer_text(const Thermometer& thermometer);

}  // namespace hailwright
