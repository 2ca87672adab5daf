#pragma once

#include "hailwright/model/record.hpp"

namespace hailwright::testing {

/// The test of `TestBuilder`, whose set-ups "before 1" and "before 2" stand in "day.csv"
/// (`day_findings`): two readings of the first are left out since irradiance changed. One log of
/// sessions, "week.csv": "morning" has a normalised power, "empty" has no row.
Test logged_test();

/// Set-ups by index of a log, named as its stretches.
LogUse day_log(const Test& test);
/// The same course as sessions, not cut.
LogUse session_log();

}  // namespace hailwright::testing
