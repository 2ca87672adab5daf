#pragma once

#include "hailwright/plan/test_plan.hpp"
#include "hailwright/report/document.hpp"

namespace hailwright {

/// The launch figures, aim maps and orders of shots.
void append_launch(const TestPlan& plan, const LaunchSheet& sheet, Document& out);
/// One field sheet a panel, each on paper of its own.
void append_field_sheets(const TestPlan& plan, const LaunchSheet& sheet, Document& out);
}  // namespace hailwright
