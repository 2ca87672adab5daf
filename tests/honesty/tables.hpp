#pragma once

#include <string>

#include "honesty/cells.hpp"
#include "honesty/tally.hpp"

namespace hailwright::honesty {

/// Heading and head of the table of a part, in Markdown.
std::string table_head(Part part);

/// One row. Shares are in per cent, each with its standard error behind it in brackets.
std::string table_row(const Cell& cell, const CellResult& result);

}  // namespace hailwright::honesty
