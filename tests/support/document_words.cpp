#include "support/document_words.hpp"

#include <regex>

#include "hailwright/report/render.hpp"

namespace hailwright::testing {

std::string words(const Document& document) {
  return std::regex_replace(render_markdown(document), std::regex("\\s+"), " ");
}

}  // namespace hailwright::testing
