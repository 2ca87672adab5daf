#include "evaluate/stress_power.hpp"

#include <algorithm>

#include "evaluate/timeline.hpp"

namespace hailwright {

std::vector<PowerResult> judge_stress_power(const Test& test, Assumptions& assumptions,
                                            const std::optional<CheckPlan>& check, Extent extent) {
  std::vector<PowerResult> results;
  const Timeline timeline(test.record);
  for (std::size_t i = 0; i < timeline.size(); ++i) {
    if (timeline.events()[i].hail) continue;
    const auto to = timeline.first_stage_from(i + 1);
    if (!to) continue;
    const StageId from = timeline.last_stage_by(i);
    // The next stage after the same one is the same.
    const bool judged = std::any_of(results.begin(), results.end(),
                                    [&](const PowerResult& result) { return result.from == from; });
    if (!judged) results.push_back(judge_power(test, *to, assumptions, check, from, extent));
  }
  return results;
}

}  // namespace hailwright
