#pragma once

#include "hailwright/core/diagnostic.hpp"
#include "hailwright/model/record.hpp"
#include "input/map_reader.hpp"

namespace hailwright::input {

/// Where the record names what the checks below may complain about.
struct RecordPlaces {
  SourceSpan tables;         ///< the key `tables`
  SourceSpan trials, balls;  ///< their keys; line 0 when the table is not given
};

/// Checks a protocol, a panel and a record against each other, after each was read by itself.
void check_trials(const Test& test, const RecordPlaces& places, Diagnostics& notes);
void check_balls(const Test& test, const RecordPlaces& places, Diagnostics& notes);

/// Whether there are tables of what was thrown; each is an error where the protocol throws nothing.
bool report_thrown(const MapReader& tables, SourceSpan protocol, Diagnostics& notes);

/// A set-up of the day of the shots has none of them between its readings (MEASUREMENT M8), as far
/// as their times are known.
void check_setups_whole(const Record& record, Diagnostics& notes);

/// The log that gives the readings of a set-up; nullptr where a table does.
const LogUse* log_of(const Record& record, std::size_t setup);

/// A set-up of the day of the shots lies on the side of each shot on which it stands by its name,
/// as far as their times are known; one after a stress that came before them is not dated after
/// them. After the stresses of the record were read.
void check_sides_of_shots(const Record& record, Diagnostics& notes);

}  // namespace hailwright::input
