#pragma once

namespace hailwright {

/// How much of a judgement is worked out.
enum class Extent {
  whole,
  /// What decides, and what a line-up of many records shows: words, places, the loss with its
  /// budget and answers, the smallest loss shown, what a shade costs, cautions. Not what stands
  /// beside it and takes the most time: the joint probability of a series, comparisons with other
  /// readings, the range of the smallest loss shown, what would settle it, evidence on hits,
  /// effects of what was assumed, logs, sessions, patterns.
  verdicts
};

}  // namespace hailwright
