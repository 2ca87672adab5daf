#pragma once

#include <optional>
#include <vector>

#include "hailwright/evaluate/assessment.hpp"

namespace hailwright {

/// Whether a thing seen is a major visual defect: yes, no, or not to be told without its share.
Answer is_major(const Finding& finding);

/// A moment after the first shot: after all throws of a series, or after one of them. Series follow
/// each other, the weakest first: a record with a throw of a weaker one behind a harder is not
/// read.
struct Moment {
  std::size_t series = 0;
  std::optional<int> after_throw;  ///< `Shot::number`; nothing: after all of them

  /// The throw had been made by then.
  [[nodiscard]] bool is_after(const Shot& shot) const;
};
bool operator<(const Moment& a, const Moment& b);

/// When a look was taken among the throws. One before them, or after a stress, has no such moment.
Moment moment_of(const Look& look);

/// Indices of the looks in the order in which they were taken.
std::vector<std::size_t> looks_in_order(const Record& record);

/// The look that answers for a series: the first one after its last throw; and the series it
/// answers for together, back to the look before.
struct LookFor {
  std::optional<std::size_t> look;
  std::vector<std::size_t> between;  ///< earlier ones, between the throws of the series
  Coverage covers;
};
LookFor look_for(const Record& record, std::size_t series);

/// Whether a look was taken before the first shot: at the start, or after a stress before the hail.
bool is_before_hail(const Record& record, const Look& look);

/// Index of the last look before the first shot.
std::optional<std::size_t> look_at_start(const Record& record);

/// Major defects that a look before the first shot saw, each once.
std::vector<const Finding*> defects_from_start(const Record& record);

/// What each look after the start shows that no look before it had shown.
std::vector<NewFinding> new_findings(const Record& record);

}  // namespace hailwright
