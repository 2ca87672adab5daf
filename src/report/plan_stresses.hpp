#pragma once

#include <string>
#include <vector>

#include "hailwright/plan/test_plan.hpp"
#include "hailwright/report/document.hpp"
#include "report/json_values.hpp"

namespace hailwright {

/// Why the stresses other than hail are refused, as sentences; empty where they are not.
std::vector<std::string> stress_refusals(const StressGateResult& gate);
/// What is answered and not enough, and how many questions are not answered at all.
std::vector<std::string> stress_findings(const StressGateResult& gate);
/// The keys to fill in. Initials and day, which stand once in a protocol, are left to the snippet
/// of the hail where that asks for them too.
std::vector<std::string> stress_snippet(const TestPlan& plan);

/// The first hazard of each stress, for the foot of every sheet.
std::string stress_foot(const Protocol& protocol);

/// What is planned, how it is measured and looked at; what to make ready, with leave alone.
/// Nothing for a protocol without such stresses.
void append_stress_plan(const TestPlan& plan, Document& out);

/// A sheet a stress and panel to fill in by hand. Contract: a sheet.
void append_stress_field_sheets(const TestPlan& plan, Document& out);

/// The same for machines: leave, questions and stresses; null for a protocol without any.
json::Json stress_plan_json(const TestPlan& plan);

}  // namespace hailwright
