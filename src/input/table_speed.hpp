#pragma once

#include "hailwright/core/diagnostic.hpp"
#include "hailwright/model/protocol.hpp"
#include "hailwright/model/speed_reading.hpp"
#include "input/table_columns.hpp"

namespace hailwright::input {

/// Two of the columns that tell the speed of a ball, in tables of trials and of shots; the others,
/// `frames` and `speed`, each table describes for itself.
ColumnRule moved_column();
ColumnRule time_column();

/// Whether the header has one of them that tells a speed.
bool has_speed_column(const Sheet& sheet);

/// What the cells of a row tell; two that say the same, or `moved` without its frames, are errors.
SpeedReading read_speed_cells(const Sheet& sheet, const CellRow& row, Diagnostics& notes);

/// Whether nothing was read at all.
bool is_blank(const SpeedReading& reading);

/// The first value of a reading that the protocol's way of knowing the speed cannot use, or that it
/// lacks, as an error at `where`; nothing wrong gives true. Frames in a protocol that names no way
/// at all are left to the caller, who has a message of his own.
bool fits_method(const SpeedReading& reading, const SpeedMethod& method, SourceSpan where,
                 Diagnostics& notes);

}  // namespace hailwright::input
