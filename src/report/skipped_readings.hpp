#pragma once

#include <cstddef>
#include <string>
#include <vector>

#include "hailwright/model/record.hpp"

namespace hailwright {

/// Readings of one set-up from a log that do not count, for one reason.
struct SkippedReadings {
  std::size_t setup = 0;  ///< index into Record::setups
  std::string reason;
  int count = 0;
};

/// Of each set-up of the record, whether its readings stand in a log.
std::vector<bool> setups_from_logs(const Record& record);

/// What logs gave that does not count, by set-up and reason, in the order of the readings: one by
/// one they would be as many as the rows of a log.
std::vector<SkippedReadings> skipped_of_logs(const Record& record);

}  // namespace hailwright
