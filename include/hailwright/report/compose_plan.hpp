#pragma once

#include <string>

#include "hailwright/plan/test_plan.hpp"
#include "hailwright/report/document.hpp"

namespace hailwright {

/// A test plan: what can hurt and what the gate says first, then what the test could tell, what it
/// takes, and, with a clearance, the launch figures, the aim maps and the field sheets. Sheets to
/// fill in by hand are of no use on a screen and may be left out.
Document compose_plan(const TestPlan& plan, bool with_field_sheets = true);

/// The same for machines; what needs a clearance is absent without one.
std::string plan_json(const TestPlan& plan);

}  // namespace hailwright
