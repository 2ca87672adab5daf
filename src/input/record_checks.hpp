#pragma once

#include "hailwright/core/diagnostic.hpp"
#include "hailwright/model/record.hpp"

namespace hailwright::input {

/// Where the record names what the checks below may complain about.
struct RecordPlaces {
  SourceSpan tables;         ///< the key `tables`
  SourceSpan trials, balls;  ///< their keys; line 0 when the table is not given
};

/// Checks a protocol, a panel and a record against each other, after each was read by itself.
void check_trials(const Test& test, const RecordPlaces& places, Diagnostics& notes);
void check_balls(const Test& test, const RecordPlaces& places, Diagnostics& notes);

}  // namespace hailwright::input
