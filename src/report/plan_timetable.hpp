#pragma once

#include "hailwright/plan/test_plan.hpp"
#include "hailwright/report/document.hpp"

namespace hailwright {

/// The work in its order, how long it takes, and what to leave out first when light or ice runs
/// out.
void append_timetable(const TestPlan& plan, Document& out);

}  // namespace hailwright
