#pragma once

#include "hailwright/evaluate/power.hpp"
#include "support/test_builder.hpp"

namespace hailwright::testing {

/// The power after all the shots as it is judged.
/// @param used  where the defaults that were taken are noted; nothing: nowhere
PowerResult judged(const Test& test, Assumptions* used = nullptr);
PowerResult judged(const TestBuilder& builder, Assumptions* used = nullptr);

bool has(const PowerResult& result, PowerRemark remark);
/// The first note of this kind. Fails the test case when there is none.
const PowerNote& note_of(const PowerResult& result, PowerRemark remark);

}  // namespace hailwright::testing
