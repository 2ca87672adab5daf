#pragma once

#include <string>

#include "hailwright/report/document.hpp"

namespace hailwright {

struct ConsoleStyle {
  int width = 80;       ///< in characters, 40 to 120
  bool colour = false;  ///< only ever in addition to words
};

/// The document for a terminal: wrapped at word ends, no line longer than the width unless a single
/// word or a table's smallest form is.
std::string render_console(const Document& document, ConsoleStyle style);

/// The document as Markdown that common flavours read alike. All text is escaped.
std::string render_markdown(const Document& document);

}  // namespace hailwright
