#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "hailwright/core/diagnostic.hpp"
#include "hailwright/core/source.hpp"
#include "input/table_cells.hpp"

namespace hailwright::input {

/// A time of day in a table.
struct Moment {
  int minute = 0;  ///< of the day
  SourceSpan origin;
};

/// "13:05".
std::string time_text(int minute);

/// Reads hours and minutes, 24 hours a day; an error, and nullopt, when the cell holds others.
/// `otherwise` is a hint for what else may have been meant; empty: none.
std::optional<Moment> read_moment(const Cell& cell, std::string_view otherwise, Diagnostics& notes);

/// The error for a row before the `latest` time of the rows that it belongs to, such as
/// `set-up "before 1"`.
void report_time_back(const Moment& latest, const Moment& moment, std::string_view rows,
                      std::vector<std::string> hints, Diagnostics& notes);

}  // namespace hailwright::input
