#pragma once

#include <string>
#include <vector>

#include "hailwright/evaluate/power.hpp"

// What stands beside a loss of power and its two answers: the random trials, the untouched panel
// measured twice, what would settle an open limit. All need an estimated result.

namespace hailwright {

/// How the random trials agree with the interval, in one or two lines.
std::vector<std::string> trials_sentences(const PowerResult& power, const MonteCarloCheck& check);

/// What it means for the rounding that there are no trials.
std::string unchecked_sentence();

/// The A/A check (MEASUREMENT M5).
std::string baseline_sentence(const PowerResult& power, const BaselineCheck& baseline);

/// Which further set-ups would settle the limit and how probably, or that none would (M6).
std::string settling_sentence(const PowerResult& power, const Settling& settling);

/// What it costs to let the estimate alone decide (M4).
std::string simple_sentence();

/// How the unstruck units of the model differ (M2), to go on after what was read of the panel.
std::string siblings_sentence(const SiblingSpread& siblings);

/// "1 000 000", held together by blanks at which no line breaks.
std::string grouped(std::int64_t count);

}  // namespace hailwright
