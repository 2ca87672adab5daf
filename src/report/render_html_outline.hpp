#pragma once

#include <string>
#include <vector>

#include "hailwright/report/document.hpp"
#include "report/render_link.hpp"

namespace hailwright::detail {

/// A heading on the page.
struct Part {
  int depth;  ///< of its element, h1 to h4
  std::string id;
  std::string words;
  std::string of = {};  ///< the panel it is about, where several have parts of the same names
};

/// How a document's headings stand on a page, which has exactly one of the first depth and leaves
/// none out on the way down.
struct Outline {
  std::string title;                 ///< of the page; never empty
  bool first_part_is_title = false;  ///< else the title needs an h1 of its own
  std::vector<Part> parts;           ///< every heading, in order
  int listed_depth = 2;              ///< down to which a table of contents goes
  bool several_panels = false;       ///< each a part with parts under it
};

/// Without a title the first heading is the page's, and all others stand under it; unless several
/// headings of the highest level have parts under them, as the panels of a comparison do: then all
/// stand under a title that names them.
/// Ids that are not given are made from the words, with a number where another has the same.
Outline outline_of(const Document& document);

/// A table of contents where three or more parts make it worth its room, else nothing. That of
/// several panels is also printed (class "several").
std::string html_contents(const Outline& outline);

}  // namespace hailwright::detail
