#pragma once

#include "hailwright/core/source.hpp"
#include "hailwright/report/compose.hpp"
#include "hailwright/report/document.hpp"

namespace hailwright {

/// Walks through the calculation of one judgement for a reader: each step with its numbers, its
/// formula and its source. Adds to the document that `compose_judgement` made.
void append_explanation(Document& out, const Judged& judged, const SourceSet& sources);

}  // namespace hailwright
