#include "report/skipped_readings.hpp"

#include <algorithm>

namespace hailwright {

std::vector<bool> setups_from_logs(const Record& record) {
  std::vector<bool> from_log(record.setups.size());
  for (const LogUse& use : record.logs) {
    for (const std::size_t setup : use.setups)
      from_log.at(setup) = true;
  }
  return from_log;
}

std::vector<SkippedReadings> skipped_of_logs(const Record& record) {
  const std::vector<bool> from_log = setups_from_logs(record);
  std::vector<SkippedReadings> all;
  for (const Reading& r : record.readings) {
    if (r.skip.empty() || !from_log[r.setup]) continue;
    const auto same = std::find_if(all.begin(), all.end(), [&](const SkippedReadings& s) {
      return s.setup == r.setup && s.reason == r.skip;
    });
    if (same == all.end()) {
      all.push_back({r.setup, r.skip, 1});
    } else {
      ++same->count;
    }
  }
  return all;
}

}  // namespace hailwright
