#pragma once

#include "hailwright/core/source.hpp"
#include "named_parts.hpp"

namespace hailwright::fuzzing {

/// Reads the main part as a data logger's file, by the column map of the part `columns.yaml` if
/// there is one, and prints what it came to, as `hailwright readings` does.
void read_log(const NamedParts& parts, SourceSet& sources);

}  // namespace hailwright::fuzzing
