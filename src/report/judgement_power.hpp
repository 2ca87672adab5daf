#pragma once

#include "hailwright/core/source.hpp"
#include "hailwright/evaluate/assessment.hpp"
#include "hailwright/report/document.hpp"

namespace hailwright {

/// Loss, watts, the two answers and what bears on them, for one stage. Lines of files are named
/// after `sources`.
void append_power_facts(Facts& facts, const PowerResult& power, const Test& test,
                        const SourceSet& sources);

/// What the power comparison could have shown.
void append_detection_facts(Facts& facts, const Assessment& assessment, const Test& test);

/// The uncertainty budgets, largest contribution first.
void append_budget(Document& out, const Assessment& assessment, const Test& test);

}  // namespace hailwright
