#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "hailwright/report/document.hpp"

namespace hailwright::detail {

/// Columns that a terminal gives to a character: 0, 1 or 2.
/// Source: Unicode Standard Annex #11 "East Asian Width" (2: Wide and Fullwidth); 0 for non-spacing
/// and enclosing marks, format characters and conjoining jamo. Ambiguous is 1.
int character_width(char32_t code);

/// One character of a UTF-8 text and how many bytes it takes. A byte that is not UTF-8 (also
/// overlong forms, surrogates) is '?' of length 1.
struct Character {
  char32_t code;
  std::size_t length;
};

/// The character at a byte offset. Contract: offset < text.size().
Character character_at(std::string_view text, std::size_t offset);

enum class Breaks { as_blanks, kept };

/// The text with nothing in it that could steer a terminal or reorder what stands around it:
/// control characters (C0, DEL, C1), bidirectional overrides and isolates, and bytes that are not
/// UTF-8 become '?'; tabs and line breaks become blanks or, for files, are kept.
std::string printable(std::string_view text, Breaks breaks = Breaks::as_blanks);

/// Terminal columns of a text without line breaks.
int display_width(std::string_view text);
int display_width(const Runs& line);

/// Words filled into lines of at most `width` columns, printable, with single blanks between words
/// and none at the ends. A word wider than that gets a line of its own; East Asian text may break
/// between any two wide characters. No-break blanks hold words together and come out as blanks;
/// a number holds the short word after it ("25 mm"). Tones and links stay with their words.
/// At least one word a line; no line for no words.
std::vector<Runs> wrap(const Runs& text, int width);

/// All words on one line, tidied as by `wrap`; empty for no words.
Runs one_line(const Runs& text);
std::string one_line(std::string_view text);
/// The same without tones and links.
std::string words_alone(const Runs& text);

/// Columns of the widest word, that is, the least width at which `wrap` never overflows.
int longest_word(std::string_view text);

/// The highest heading (least level) of a document, 1 when there is none: it stands directly under
/// the title, or in the title's place.
int top_level(const Document& document);

/// So many blanks; none for a count below 1.
std::string blanks(int count);

/// Appends to a line; words of the same tone and link join into one run.
void append(Runs& line, std::string_view text, Tone tone, std::string_view link = {});

/// The text with its plain words strong.
Runs in_strong(Runs text);

}  // namespace hailwright::detail
