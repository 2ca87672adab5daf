#include "report/text_layout.hpp"

#include <string>
#include <vector>

#include "hailwright/core/contract.hpp"
#include "support/catch.hpp"

using namespace hailwright;
using detail::display_width;
using detail::printable;

namespace {

std::vector<std::string> wrapped(const std::string& text, int width) {
  std::vector<std::string> lines;
  for (const Runs& line : detail::wrap(plain(text), width)) {
    std::string& joined = lines.emplace_back();
    for (const Run& run : line)
      joined += run.text;
  }
  return lines;
}

using Lines = std::vector<std::string>;

}  // namespace

TEST_CASE("what steers a terminal is printed as a question mark") {
  CHECK(printable("a\x1b[31mb") == "a?[31mb");
  CHECK(printable(std::string("a\0b\a\x7f", 5)) == "a?b??");
  CHECK(printable("\u0085\u009b0m") == "??0m");  // C1 as characters
  CHECK(printable("\x9b"
                  "0m") == "?0m");                                   // C1 as a byte
  CHECK(printable("\u202agreen\u202e\u2066\u2069") == "?green???");  // bidirectional
  CHECK(printable("a\r\nb\tc\u2028d") == "a  b c d");
  CHECK(printable("a\r\nb\tc\x1b", detail::Breaks::kept) == "a\r\nb\tc?");
}

TEST_CASE("harmless characters stay as they are") {
  const std::string text = "25 mm ± 0.2 mm, 世界, e\u0301, \u05d0\u200f, \U0001F600";
  CHECK(printable(text) == text);
}

// The ill-formed sequences follow the Unicode Standard, table 3-7 (from memory).
TEST_CASE("bytes that are not UTF-8 are printed as question marks") {
  CHECK(printable("\xff") == "?");
  CHECK(printable("\xc0\xaf") == "??");            // overlong solidus
  CHECK(printable("\xe0\x80\xaf") == "???");       // overlong, three bytes
  CHECK(printable("\xf0\x80\x80\xaf") == "????");  // overlong, four bytes
  CHECK(printable("\xed\xa0\x80") == "???");       // surrogate
  CHECK(printable("\xf4\x90\x80\x80") == "????");  // above U+10FFFF
  CHECK(printable("a\xe4\xb8") == "a??");          // cut off at the end
  CHECK(printable("\xe4\xb8z") == "??z");          // cut off by another character
  CHECK(printable("\xf4\x8f\xbf\xbd") == "\xf4\x8f\xbf\xbd");
}

TEST_CASE("a character beyond the text is a broken promise") {
  CHECK_THROWS_AS(detail::character_at("a", 1), BugError);
}

TEST_CASE("width counts columns, not bytes") {
  CHECK(display_width("±5 °") == 4);
  CHECK(display_width("e\u0301") == 1);
  CHECK(display_width("世界") == 4);
  CHECK(display_width(Runs{{"ab", Tone::good}, {"世", Tone::plain}}) == 4);
  CHECK(display_width("") == 0);
}

TEST_CASE("words fill lines") {
  CHECK(wrapped("one two three", 7) == Lines{"one two", "three"});
  CHECK(wrapped("one two three", 6) == Lines{"one", "two", "three"});
  CHECK(wrapped("  one \n two  ", 80) == Lines{"one two"});
  CHECK(wrapped("", 80).empty());
  CHECK(wrapped(" \t\u3000", 80).empty());
}

TEST_CASE("a word wider than the line stays whole on a line of its own") {
  CHECK(wrapped("a incomprehensibilities b", 10) == Lines{"a", "incomprehensibilities", "b"});
  CHECK(detail::longest_word("a incomprehensibilities b") == 21);
}

TEST_CASE("a number holds its unit") {
  CHECK(wrapped("struck with 25 mm of ice", 14) == Lines{"struck with", "25 mm of ice"});
  CHECK(wrapped("gives (grade 7.66 J), more", 17) == Lines{"gives (grade", "7.66 J), more"});
  CHECK(wrapped("within ±0.15 %/K always", 13) == Lines{"within", "±0.15 %/K", "always"});
  CHECK(wrapped("seen at 11 places", 10) == Lines{"seen at 11", "places"});
  // Only one word is held, so that a row of numbers still breaks.
  CHECK(wrapped("1 2 3 4", 3) == Lines{"1 2", "3 4"});
}

TEST_CASE("no-break blanks hold words and come out as blanks") {
  CHECK(wrapped("about one\u00a0week long", 10) == Lines{"about", "one week", "long"});
  CHECK(wrapped("\u00a0one\u00a0\u00a0two\u00a0 ", 80) == Lines{"one two"});
}

TEST_CASE("East Asian text breaks between characters but not before closing marks") {
  CHECK(wrapped("世界世界", 4) == Lines{"世界", "世界"});
  CHECK(wrapped("世界世界", 5) == Lines{"世界", "世界"});
  CHECK(wrapped("世界。世", 4) == Lines{"世", "界。", "世"});
  CHECK(wrapped("世「界世", 4) == Lines{"世", "「界", "世"});
  CHECK(wrapped("世\u0301界", 2) == Lines{"世\u0301", "界"});
  CHECK(wrapped("世界 a", 80) == Lines{"世界 a"});
}

TEST_CASE("joined pictures are not torn apart") {
  CHECK(wrapped("\U0001F468\u200d\U0001F469", 2) == Lines{"\U0001F468\u200d\U0001F469"});
}

TEST_CASE("a word may run on from one run into the next") {
  const Runs text = {{"it withstood", Tone::plain}, {" hail", Tone::good}, {", truly", Tone::good}};
  const auto lines = detail::wrap(text, 12);
  REQUIRE(lines.size() == 2);
  REQUIRE(lines[0].size() == 1);
  CHECK(lines[0][0].text == "it withstood");
  REQUIRE(lines[1].size() == 1);
  CHECK(lines[1][0].text == "hail, truly");
  CHECK(lines[1][0].tone == Tone::good);
}

TEST_CASE("the blank between words of different tones is plain") {
  const Runs line = detail::one_line({{"good ", Tone::good}, {" bad", Tone::bad}});
  REQUIRE(line.size() == 3);
  CHECK(line[1].text == " ");
  CHECK(line[1].tone == Tone::plain);
  CHECK(detail::one_line(" a \n b ") == "a b");
  CHECK(detail::one_line("").empty());
}

TEST_CASE("a link stays with its words and with the blanks between them") {
  const Runs line = detail::one_line({{"see the ", Tone::plain},
                                      {"table of", Tone::plain, "a.csv"},
                                      {" readings", Tone::plain, "a.csv"},
                                      {", ", Tone::plain},
                                      {"25", Tone::plain, "b.csv"},
                                      {" mm", Tone::plain}});
  REQUIRE(line.size() == 5);
  CHECK(line[0].text == "see the ");
  CHECK(line[1].text == "table of readings");
  CHECK(line[1].link == "a.csv");
  CHECK(line[2].text == ", ");
  CHECK(line[2].link.empty());
  CHECK(line[3].text == "25");
  CHECK(line[3].link == "b.csv");
  CHECK(line[4].text == " mm");
  CHECK(line[4].link.empty());
  const auto lines = detail::wrap({{"one two", Tone::plain, "#a"}}, 4);
  REQUIRE(lines.size() == 2);
  CHECK(lines[1][0].link == "#a");
}

TEST_CASE("words without their tones and links") {
  CHECK(detail::words_alone({{"a ", Tone::good}, {" b", Tone::plain, "#c"}}) == "a b");
  CHECK(detail::words_alone({{" ", Tone::good}}).empty());
}

TEST_CASE("only plain words become strong") {
  const Runs text = detail::in_strong({{"a", Tone::plain}, {"b", Tone::bad, "#c"}});
  CHECK(text[0].tone == Tone::strong);
  CHECK(text[1].tone == Tone::bad);
  CHECK(text[1].link == "#c");
}
