#include "support/judged_power.hpp"

#include <algorithm>

#include "support/catch.hpp"

namespace hailwright::testing {

PowerResult judged(const Test& test, Assumptions* used) {
  Assumptions unlisted;
  return judge_power(test, {StageKind::after, 0}, used != nullptr ? *used : unlisted);
}

PowerResult judged(const TestBuilder& builder, Assumptions* used) {
  return judged(builder.build(), used);
}

bool has(const PowerResult& result, PowerRemark remark) {
  return std::any_of(result.notes.begin(), result.notes.end(),
                     [&](const PowerNote& n) { return n.remark == remark; });
}

const PowerNote& note_of(const PowerResult& result, PowerRemark remark) {
  const auto found = std::find_if(result.notes.begin(), result.notes.end(),
                                  [&](const PowerNote& n) { return n.remark == remark; });
  REQUIRE(found != result.notes.end());
  return *found;
}

}  // namespace hailwright::testing
