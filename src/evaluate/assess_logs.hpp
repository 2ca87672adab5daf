#pragma once

#include <vector>

#include "hailwright/evaluate/log_results.hpp"
#include "hailwright/model/record.hpp"

namespace hailwright {

/// What the logs of a record came to, in its order, by the instruments of their stage: the
/// protocol's, in stages after the shots those that the record describes anew. Nothing of it bears
/// on the judgement. Rows that were not normalised, because what that takes is not stated, have no
/// normalised power here either.
/// @param logs  `Record::logs` or `Record::sessions` of the test
std::vector<LogResults> weigh_logs(const std::vector<LogUse>& logs, const Test& test);

}  // namespace hailwright
