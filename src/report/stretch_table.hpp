#pragma once

#include <string>
#include <vector>

#include "hailwright/evaluate/log_results.hpp"
#include "hailwright/report/data_table.hpp"

namespace hailwright {

/// A stretch of a log, or a whole one, as a row of a table.
struct StretchRow {
  const LogStretch& stretch;
  const StretchNumbers& numbers;
  std::string zone;
};

/// How people are shown when a stretch was; machines get ISO 8601 with the offset from UTC.
enum class StretchTimes {
  minute,  ///< "2026-06-14 10:02"
  second   ///< "2026-06-14 10:02:00"
};

/// Adds to a table what stretches of logs came to, column by column: times, rows, energy, mean and
/// normalised power, the ratio of two panels with 95 % intervals, gaps, the counter, what the
/// steady rule removed.
/// @param table  with the first columns and the first cells of each row
DataTable stretch_table(DataTable table, const std::vector<StretchRow>& rows, StretchTimes shown);

}  // namespace hailwright
