#pragma once

#include <cstddef>
#include <string>
#include <string_view>

namespace hailwright::detail {

/// One character of a UTF-8 text. `size`: the bytes it takes, 0 where the bytes are not UTF-8.
struct Utf8Character {
  std::size_t size = 0;
  char32_t code = 0;
};

/// The character at a byte offset, by the well-formed byte ranges of The Unicode Standard, table
/// 3-7 (from memory): no overlong forms, no surrogates, nothing above U+10FFFF.
/// Contract: offset < text.size().
Utf8Character utf8_at(std::string_view text, std::size_t offset);

/// A character that acts on a terminal or on the order of the text around it: the controls C0, DEL
/// and C1, bidirectional embeddings, overrides and isolates. Tabs and line breaks are among them.
bool steers(char32_t code);

/// One line for people: what steers and what is not UTF-8 as '?', a tab as a blank.
std::string without_steering(std::string_view text);

}  // namespace hailwright::detail
