#pragma once

#include <vector>

#include "hailwright/report/document.hpp"
#include "hailwright/safety/cautions.hpp"

namespace hailwright {

/// The cautions as the last section of a document, most urgent first.
void append_cautions(Document& out, std::vector<const Caution*> cautions);

}  // namespace hailwright
