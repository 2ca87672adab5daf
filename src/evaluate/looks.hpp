#pragma once

#include <optional>
#include <vector>

#include "hailwright/evaluate/assessment.hpp"

namespace hailwright {

/// Whether a thing seen is a major visual defect: yes, no, or not to be told without its share.
Answer is_major(const Finding& finding);

/// The look that answers for a series: the first one after it; and the series it answers for
/// together, back to the look before.
struct LookFor {
  std::optional<std::size_t> look;
  Coverage covers;
};
LookFor look_for(const Record& record, std::size_t series, std::size_t series_count);

/// Index of the look before the first shot.
std::optional<std::size_t> look_at_start(const Record& record);

/// What each look after the shots shows that no look before it had shown.
std::vector<NewFinding> new_findings(const Record& record);

}  // namespace hailwright
