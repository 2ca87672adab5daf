#pragma once

#include "hailwright/report/compose_readings.hpp"

namespace hailwright {

// The parts of what `hailwright readings` prints, in their order. Each adds nothing where there is
// nothing to say.

/// Files, rows, what could not be used, columns, times, gaps.
void append_reading(Document& out, const ReadingsAnswer& answer);
/// The numbers of the whole log.
void append_whole(Document& out, const ReadingsAnswer& answer);
/// The stretches: how they were cut, their numbers, what is to be said of each.
void append_stretches(Document& out, const ReadingsAnswer& answer);
/// Two panels logged together.
void append_side_by_side(Document& out, const ReadingsAnswer& answer);
/// The largest parts of the uncertainties of the whole log.
void append_budgets(Document& out, const ReadingsAnswer& answer);
/// Defaults of the instruments, and the rules by which the log was measured.
void append_assumed(Document& out, const ReadingsAnswer& answer);
/// Warnings with their places.
void append_remarks(Document& out, const ReadingsAnswer& answer);

}  // namespace hailwright
