#pragma once

#include <string>

#include "hailwright/report/document.hpp"

namespace hailwright::testing {

/// The document as Markdown, every run of blanks and line breaks as one blank.
std::string words(const Document& document);

}  // namespace hailwright::testing
