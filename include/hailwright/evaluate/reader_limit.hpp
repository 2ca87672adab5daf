#pragma once

#include <vector>

#include "hailwright/evaluate/assessment.hpp"

namespace hailwright {

/// What the judged losses say about a limit that is a reader's own, not the protocol's. It changes
/// no verdict: who sets the limit after the result is known can have either answer.
struct ReaderLimit {
  Ratio limit;
  /// For each of Assessment::power and ::later_power; where the comparison draws no answer
  /// (`PowerResult::usable`), all undecided.
  std::vector<LossAnswers> power, later_power;
};

/// By the same rules as the protocol's limit: the interval, and random trials where they were made
/// (M4, M7). `rule: simple` is the protocol's own and is not applied.
/// Contract: 0 < limit < 1.
ReaderLimit answer_reader_limit(const Assessment& assessment, Ratio limit);

}  // namespace hailwright
