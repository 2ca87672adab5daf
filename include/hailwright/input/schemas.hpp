#pragma once

#include <string>

#include "hailwright/input/readers.hpp"

namespace hailwright {

/// The JSON Schema (draft 2020-12) of a kind of file, for editors that complete and check YAML: the
/// same keys as its reader, with the words of its format page. UTF-8, the same bytes always.
///
/// It never refuses what the reader takes, but for two ways of writing (docs/editing.md); what a
/// schema cannot see, such as another file, the order of keys or the size of an amount, it lets
/// through. For a parser of YAML 1.2. Contract: not FileKind::unknown.
std::string json_schema(FileKind kind);

}  // namespace hailwright
