#pragma once

#include <map>
#include <string>
#include <string_view>
#include <vector>

namespace markup {

/// An element of a page in the order of its opening tag.
struct Element {
  std::string name;
  std::map<std::string, std::string> attributes;  ///< entities resolved
  std::size_t parent;                             ///< its index; its own for an outermost one
  std::string text;                               ///< directly inside it, entities resolved
};

/// Reads text as well-formed XML, with nothing but what our renderers need: an optional <!DOCTYPE
/// html>, elements, quoted attributes, the five named or numbered entities for & < > " '. Throws
/// std::runtime_error that names the place of the first slip: tags that do not match, a second
/// attribute of one name, a bare & or <, a control character, text outside the outermost element.
std::vector<Element> read(std::string_view text);

/// How many elements have this name.
std::size_t count(const std::vector<Element>& elements, std::string_view name);

}  // namespace markup
