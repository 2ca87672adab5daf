#pragma once

#include "hailwright/core/source.hpp"
#include "hailwright/evaluate/assessment.hpp"
#include "hailwright/report/document.hpp"

namespace hailwright {

/// Stresses other than hail: the word of each, and why.
void append_stress_verdicts(Facts& facts, const Test& test, const Assessment& assessment,
                            const SourceSet& sources);

/// What was done of each, held against the plan, and what the power says. Nothing where the record
/// has none.
Facts stress_facts(const Test& test, const Assessment& assessment);

}  // namespace hailwright
