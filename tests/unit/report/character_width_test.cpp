#include "report/text_layout.hpp"
#include "support/catch.hpp"

using hailwright::detail::character_width;

// EastAsianWidth.txt of the Unicode Character Database 14.0.0 (Unicode Standard Annex #11), looked
// up through a second implementation, Python's unicodedata 14.0.0 (computed).
TEST_CASE("characters take the columns of UAX #11") {
  struct Case {
    char32_t code;
    int width;
  };
  const Case cases[] = {
      {U'a', 1},      // Na
      {0x00AD, 1},    // soft hyphen, A
      {0x00B1, 1},    // plus-minus sign, A
      {0x00E9, 1},    // e with acute, A
      {0x20AC, 1},    // euro sign, A
      {0x2600, 1},    // sun, N
      {0x26A1, 2},    // high voltage sign, W
      {0x3000, 2},    // ideographic space, F
      {0x303F, 1},    // ideographic half fill space, N
      {0x30A2, 2},    // katakana a, W
      {0xFF71, 1},    // half-width katakana a, H
      {0xFF21, 2},    // full-width A, F
      {0x4E00, 2},    // ideograph, W
      {0xAC00, 2},    // Hangul syllable, W
      {0x1100, 2},    // Hangul lead, W
      {0x1F600, 2},   // face, W
      {0x1F321, 1},   // thermometer, N
      {0x20000, 2},   // ideograph, W
      {0x10FFFD, 1},  // private use, A
  };
  for (const Case& c : cases) {
    CAPTURE(static_cast<unsigned>(c.code));
    CHECK(character_width(c.code) == c.width);
  }
}

// General categories Mn, Me and Cf of the same database, looked up in the same way.
TEST_CASE("marks and format characters take no column") {
  for (const char32_t code : {0x0300U, 0x036FU, 0x0489U, 0x05B0U, 0x0E31U, 0x1160U, 0x200BU,
                              0x200DU, 0x20DDU, 0x302AU, 0xFE0FU, 0xFEFFU, 0xE0100U}) {
    CAPTURE(static_cast<unsigned>(code));
    CHECK(character_width(code) == 0);
  }
  // Seen signs among the format characters: Arabic number sign.
  CHECK(character_width(0x0600) == 1);
}
