#pragma once

#include <optional>
#include <string>

#include "input/document.hpp"
#include "input/table.hpp"

namespace hailwright::input {

/// The text of a table that a key gives: a `|` block is the table itself, anything else the path of
/// its file, seen from `path`, the file that the key stands in. Nothing, with the errors, when it
/// cannot be had.
std::optional<TableSource> read_table_source(const Entry& entry, const std::string& path,
                                             const Loader& load, SourceSet& sources,
                                             Diagnostics& notes);

}  // namespace hailwright::input
