#pragma once

#include <vector>

#include "hailwright/report/document.hpp"
#include "hailwright/safety/cautions.hpp"

namespace hailwright {

/// One caution with its source and how that was read.
CautionItem caution_item(const Caution& caution);

/// The cautions as the last section of a document, most urgent first.
void append_cautions(Document& out, std::vector<const Caution*> cautions);

}  // namespace hailwright
