#pragma once

#include "hailwright/core/source.hpp"
#include "hailwright/evaluate/assessment.hpp"
#include "hailwright/report/document.hpp"

namespace hailwright {

/// What the loss looks like. Nothing where the record has no figures of the curve.
Facts pattern_facts(const Test& test, const Assessment& assessment, const SourceSet& sources);

}  // namespace hailwright
