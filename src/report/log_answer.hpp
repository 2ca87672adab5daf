#pragma once

#include <string>
#include <vector>

#include "hailwright/evaluate/assessment.hpp"
#include "hailwright/report/compose_readings.hpp"

namespace hailwright {

/// The logs of a record as all that is said of logs takes them, so that the record's pages and
/// `hailwright readings` say the same of the same file. In the order of the record.
std::vector<ReadingsAnswer> log_answers(const Test& test, const Assessment& assessment);
/// The same of its sessions.
std::vector<ReadingsAnswer> session_answers(const Test& test, const Assessment& assessment);

/// A stretch with its name and its numbers, of an answer that must outlive it.
struct NamedStretch {
  std::string name;
  const LogStretch& stretch;
  const StretchNumbers& numbers;
};
/// Each stretch; the whole log, named after its files, where it was not cut.
std::vector<NamedStretch> told_stretches(const ReadingsAnswer& answer);

}  // namespace hailwright
