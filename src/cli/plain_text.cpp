#include "cli/plain_text.hpp"

#include <algorithm>
#include <array>

#include "report/text_layout.hpp"

namespace hailwright::cli {

namespace {

struct LookAlike {
  std::u32string_view characters;
  std::string_view ascii;
};

/// [ours]: Latin letters of Europe without their marks, and the signs that stand in notes of
/// measurements; units as in docs/units.md.
constexpr std::array look_alikes{
    LookAlike{U"ÀÁÂÃÄÅĀĂĄ", "A"},
    LookAlike{U"àáâãäåāăąª", "a"},
    LookAlike{U"ÇĆĈĊČ", "C"},
    LookAlike{U"çćĉċč", "c"},
    LookAlike{U"ÐĎĐ", "D"},
    LookAlike{U"ðďđ", "d"},
    LookAlike{U"ÈÉÊËĒĔĖĘĚ", "E"},
    LookAlike{U"èéêëēĕėęě", "e"},
    LookAlike{U"ĜĞĠĢ", "G"},
    LookAlike{U"ĝğġģ", "g"},
    LookAlike{U"ĤĦ", "H"},
    LookAlike{U"ĥħ", "h"},
    LookAlike{U"ÌÍÎÏĨĪĬĮİ", "I"},
    LookAlike{U"ìíîïĩīĭįı", "i"},
    LookAlike{U"Ĵ", "J"},
    LookAlike{U"ĵ", "j"},
    LookAlike{U"Ķ", "K"},
    LookAlike{U"ķ", "k"},
    LookAlike{U"ĹĻĽŁ", "L"},
    LookAlike{U"ĺļľł", "l"},
    LookAlike{U"ÑŃŅŇ", "N"},
    LookAlike{U"ñńņň", "n"},
    LookAlike{U"ÒÓÔÕÖØŌŎŐ", "O"},
    LookAlike{U"òóôõöøōŏő", "o"},
    LookAlike{U"ŔŖŘ", "R"},
    LookAlike{U"ŕŗř", "r"},
    LookAlike{U"ŚŜŞŠȘ", "S"},
    LookAlike{U"śŝşšș", "s"},
    LookAlike{U"ŢŤŦȚ", "T"},
    LookAlike{U"ţťŧț", "t"},
    LookAlike{U"ÙÚÛÜŨŪŬŮŰŲ", "U"},
    LookAlike{U"ùúûüũūŭůűųµμ", "u"},
    LookAlike{U"Ŵ", "W"},
    LookAlike{U"ŵ", "w"},
    LookAlike{U"ÝŶŸ", "Y"},
    LookAlike{U"ýÿŷ", "y"},
    LookAlike{U"ŹŻŽ", "Z"},
    LookAlike{U"źżž", "z"},
    LookAlike{U"Æ", "AE"},
    LookAlike{U"æ", "ae"},
    LookAlike{U"Œ", "OE"},
    LookAlike{U"œ", "oe"},
    LookAlike{U"ß", "ss"},
    LookAlike{U"Þ", "Th"},
    LookAlike{U"þ", "th"},
    LookAlike{U"°º", "deg"},
    LookAlike{U"Ω\u2126", "ohm"},
    LookAlike{U"±", "+-"},
    LookAlike{U"\u2010\u2011\u2012\u2013\u2014\u2212", "-"},
    LookAlike{U"×", "x"},
    LookAlike{U"·\u2022\u22c5", "*"},
    LookAlike{U"²", "2"},
    LookAlike{U"³", "3"},
    LookAlike{U"\u2264", "<="},
    LookAlike{U"\u2265", ">="},
    LookAlike{U"\u2248", "~"},
    LookAlike{U"\u2192", "->"},
    LookAlike{U"\u2018\u2019\u201a\u2032´", "'"},
    LookAlike{U"\u201c\u201d\u201e\u2033«»", "\""},
    LookAlike{U"\u2026", "..."},
    LookAlike{U"€", "EUR"},
    LookAlike{U"£", "GBP"},
    LookAlike{U"\u00a0\u2007\u2009\u202f", " "},
};

std::string ascii_of(char32_t code) {
  const auto found = std::find_if(look_alikes.begin(), look_alikes.end(), [&](const LookAlike& l) {
    return l.characters.find(code) != std::u32string_view::npos;
  });
  if (found != look_alikes.end()) return std::string(found->ascii);
  std::string marks;
  marks.append(static_cast<std::size_t>(detail::character_width(code)), '?');
  return marks;
}

}  // namespace

std::string in_ascii(std::string_view utf8) {
  constexpr char32_t first_beyond = 0x80;
  std::string text;
  for (std::size_t at = 0; at < utf8.size();) {
    const detail::Character character = detail::character_at(utf8, at);
    if (character.code < first_beyond)
      text += static_cast<char>(character.code);
    else
      text += ascii_of(character.code);
    at += character.length;
  }
  return text;
}

}  // namespace hailwright::cli
