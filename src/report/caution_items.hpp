#pragma once

#include <vector>

#include "hailwright/report/compose.hpp"
#include "hailwright/report/document.hpp"
#include "hailwright/safety/cautions.hpp"
#include "report/audience.hpp"

namespace hailwright {

/// One caution with its source and how that was read.
CautionItem caution_item(const Caution& caution);

/// The cautions of all records, each once, most urgent first.
std::vector<const Caution*> cautions_of(const std::vector<Judged>& judged);

/// The cautions as a section of a document, most urgent first, with the id "cautions". Readers get
/// them without the names that they have in the program.
void append_cautions(Document& out, std::vector<const Caution*> cautions, int level = 1,
                     Audience audience = Audience::reviewer);

}  // namespace hailwright
