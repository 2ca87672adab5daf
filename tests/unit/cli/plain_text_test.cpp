#include "cli/plain_text.hpp"

#include "support/catch.hpp"

using hailwright::cli::in_ascii;

TEST_CASE("plain_text: what is in ASCII stays as it is with its control characters") {
  CHECK(in_ascii("").empty());
  CHECK(in_ascii("a ~\t\n\x1b[1mstrong\x1b[0m") == "a ~\t\n\x1b[1mstrong\x1b[0m");
}

TEST_CASE("plain_text: letters without their marks and signs as they are written") {
  CHECK(in_ascii("Größe, Ærø, Łódź, Çeşme, naïve") == "Grosse, AEro, Lodz, Cesme, naive");
  CHECK(in_ascii("25 °C ± 1 °C, 100 W/m², 5 µm, 3 Ω") ==
        "25 degC +- 1 degC, 100 W/m2, 5 um, 3 ohm");
  CHECK(in_ascii("“a” – ‘b’ … ≤ 5 €") == "\"a\" - 'b' ... <= 5 EUR");
  CHECK(in_ascii("5\u00a0mm × 3") == "5 mm x 3");
}

TEST_CASE("plain_text: of anything else a question mark for each column") {
  CHECK(in_ascii("漢字") == "????");
  CHECK(in_ascii("Жук") == "???");
  CHECK(in_ascii("e\u0301") == "e");  // a combining mark takes no column
}

// On a terminal of ISO/IEC 8859 the bytes 80 to 9F are controls (ISO/IEC 6429; from memory), and
// 9B of the letter below begins an escape sequence.
TEST_CASE("plain_text: no byte beyond ASCII is left, and none that was none of UTF-8") {
  CHECK(in_ascii("ě\xC2\x9B") == "e?");
  CHECK(in_ascii("a\xFF\xC3") == "a??");
  for (char32_t code = 0x80; code < 0x3000; ++code) {
    std::string character;
    if (code < 0x800) {
      character += static_cast<char>(0xC0U | (code >> 6U));
    } else {
      character += static_cast<char>(0xE0U | (code >> 12U));
      character += static_cast<char>(0x80U | ((code >> 6U) & 0x3FU));
    }
    character += static_cast<char>(0x80U | (code & 0x3FU));
    for (const char c : in_ascii(character)) {
      CAPTURE(static_cast<std::uint32_t>(code));
      REQUIRE(static_cast<unsigned char>(c) >= 0x20);
      REQUIRE(static_cast<unsigned char>(c) < 0x7F);
    }
  }
}
