#pragma once

#include <string>

#include "hailwright/report/document.hpp"

namespace hailwright::detail {

/// A <table> with its caption, the heads of its columns and, where the first cells tell the rows
/// apart, the names of its rows. Without rows it says so.
/// Contract: a column, and in every row as many cells as columns.
std::string html_table(const Table& table);

/// The classes of the box that it scrolls in: "tall" where a screen should scroll its rows under
/// their heads, "wide" where paper has room for small type only. A form is neither.
std::string scroll_classes(const Table& table);

}  // namespace hailwright::detail
