#pragma once

#include <string>
#include <string_view>

#include "hailwright/report/compose_readings.hpp"

namespace hailwright {

/// A text as a YAML scalar that reads back to the same text: as it stands where nothing in it could
/// be taken for anything else, else in double quotes. What could steer a terminal or reorder what
/// stands around it is written by its code (YAML 1.2.2, 5.7), so that it survives every format.
/// Bytes that are no UTF-8 become '?'.
std::string yaml_text(std::string_view text);

/// The key of a record under which a log stands: "before".
std::string_view key_of(LogPlace place);

}  // namespace hailwright
