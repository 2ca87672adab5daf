#pragma once

#include "hailwright/plan/test_plan.hpp"
#include "hailwright/report/document.hpp"

namespace hailwright {

/// "Can it answer?": what the power measurement of each panel will be able to tell.
void append_measuring_outlook(const TestPlan& plan, Document& out);

}  // namespace hailwright
