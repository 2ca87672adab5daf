#include "report/html_style.hpp"

#include <algorithm>
#include <cmath>
#include <cstdlib>
#include <regex>
#include <set>
#include <string>

#include "support/catch.hpp"

using namespace hailwright::detail;

namespace {

/// Relative luminance and contrast ratio, as WCAG 2.1 defines both (from memory; the values below
/// hold the reading against what is published).
double luminance(std::string_view colour) {
  const auto channel = [&](std::size_t at) {
    const double part =
        static_cast<double>(std::stoi(std::string(colour.substr(at, 2)), nullptr, 16)) / 255.0;
    return part <= 0.03928 ? part / 12.92 : std::pow((part + 0.055) / 1.055, 2.4);
  };
  return 0.2126 * channel(1) + 0.7152 * channel(3) + 0.0722 * channel(5);
}

double contrast(std::string_view a, std::string_view b) {
  const double lighter = std::max(luminance(a), luminance(b));
  const double darker = std::min(luminance(a), luminance(b));
  return (lighter + 0.05) / (darker + 0.05);
}

std::vector<const Palette*> palettes() {
  return {&light_palette(), &dark_palette(), &paper_palette()};
}

}  // namespace

TEST_CASE("the contrast formula gives the published ratios") {
  CHECK_THAT(contrast("#000000", "#ffffff"),
             WithinAbs(21.0, 1e-9));  // WCAG 2.1, contrast ratio: 1 to 21
  // The lightest greys that reach 4.5 : 1 and 3 : 1 on white; commonly printed as 4.54, 4.48 and
  // 3.03 (from memory).
  CHECK_THAT(contrast("#767676", "#ffffff"), WithinAbs(4.54, 0.005));
  CHECK_THAT(contrast("#777777", "#ffffff"), WithinAbs(4.48, 0.005));
  CHECK_THAT(contrast("#949494", "#ffffff"), WithinAbs(3.03, 0.005));
}

// Source of the limits: WCAG 2.1, success criteria 1.4.3 (text, 4.5 : 1) and 1.4.11 (what must be
// made out, 3 : 1), level AA; both from memory.
TEST_CASE("every pair of colours has enough contrast") {
  for (const Palette* palette : palettes()) {
    for (const ColourPair& pair : colour_pairs(*palette)) {
      CAPTURE(palette->paper, pair.what, pair.fore, pair.ground);
      CHECK(contrast(pair.fore, pair.ground) >= (pair.is_text ? 4.5 : 3.0));
    }
  }
}

TEST_CASE("every colour of a palette stands in a pair, but the rules that only part things") {
  for (const Palette* palette : palettes()) {
    std::multiset<std::string_view> paired;
    for (const ColourPair& pair : colour_pairs(*palette)) {
      paired.insert(pair.fore);
      paired.insert(pair.ground);
    }
    for (const std::string_view colour :
         {palette->paper, palette->tint, palette->ink, palette->quiet, palette->accent,
          palette->good, palette->bad, palette->open, palette->picture, palette->picture_ink}) {
      CAPTURE(palette->paper, colour);
      CHECK(paired.count(colour) > 0);
    }
  }
}

TEST_CASE("the style sheet holds no colour that the palettes do not") {
  std::set<std::string> known;
  for (const Palette* p : palettes()) {
    for (const std::string_view colour : {p->paper, p->tint, p->ink, p->quiet, p->rule, p->accent,
                                          p->good, p->bad, p->open, p->picture, p->picture_ink})
      known.emplace(colour);
  }
  const std::string css = html_style("");
  static const std::regex colour("#[0-9a-fA-F]{3,8}");
  int found = 0;
  for (std::sregex_iterator it(css.begin(), css.end(), colour), end; it != end; ++it, ++found) {
    CAPTURE(it->str());
    CHECK(known.count(it->str()) == 1);
  }
  CHECK(found > 30);
  CHECK(css.find("rgb") == std::string::npos);
  CHECK(css.find("hsl") == std::string::npos);
}

TEST_CASE("no two tones differ by colour alone") {
  const std::string css = html_style("");
  // Good is bold as every tone is; these two have an underline each of its own.
  CHECK(css.find(".bad { color: var(--bad); text-decoration-line: underline; "
                 "text-decoration-style: double; }") != std::string::npos);
  CHECK(css.find(".open { color: var(--open); text-decoration-line: underline; "
                 "text-decoration-style: dotted; }") != std::string::npos);
}

TEST_CASE("the style sheet fetches nothing and its braces match") {
  const std::string css = html_style("A title");
  for (const char* word : {"url(", "@import", "@font-face", "http", "<", "&"}) {
    CAPTURE(word);
    CHECK(css.find(word) == std::string::npos);
  }
  CHECK(std::count(css.begin(), css.end(), '{') == std::count(css.begin(), css.end(), '}'));
}

TEST_CASE("no title can leave its string in the style sheet") {
  const std::string css = html_style("a\"; } </style><script>x\n\\y\u202e");
  CHECK(css.find(
            "content: \"a\\22 \\3b  \\7d  \\3c \\2f style\\3e \\3c script\\3e x \\5c y\\3f \";") !=
        std::string::npos);
  CHECK(css.find("</") == std::string::npos);
}

// A title of several lines ran into the text of every sheet.
TEST_CASE("the running title is shortened to its line") {
  const auto running = [](const std::string& title) {
    const std::string css = html_style(title);
    const std::size_t from = css.find("@top-left { content: \"") + 22;
    return css.substr(from, css.find('"', from) - from);
  };
  CHECK(running(std::string(80, 'a')) == std::string(80, 'a'));
  CHECK(running(std::string(81, 'a')) == std::string(77, 'a') + "\\2e \\2e \\2e ");
  CHECK(running(" a \n b") == "a b");
  std::string wide;
  for (int i = 0; i < 50; ++i)
    wide += "\u4e16";
  const std::string css = running(wide);  // two columns each
  CHECK(std::count(css.begin(), css.end(), '\\') == 39 + 3);
}

// Found by review: long titles ended inside a word.
TEST_CASE("the running title ends after a word") {
  const std::string css = html_style(std::string(60, 'a') + ' ' + std::string(30, 'b'));
  CHECK(css.find(std::string(60, 'a') + "\\2e \\2e \\2e ") != std::string::npos);
  CHECK(css.find("bb") == std::string::npos);
}

TEST_CASE("paper of any size gets margins, a page number and room for the foot") {
  const std::string css = html_style("Panel A");
  CHECK(css.find("@page { margin: ") != std::string::npos);
  CHECK(css.find("size: A4") == std::string::npos);
  CHECK(css.find("counter(page)") != std::string::npos);
  CHECK(css.find("@top-left { content: \"Panel A\";") != std::string::npos);
  CHECK(css.find("footer { position: fixed; left: 0; right: 0; bottom: 0;") != std::string::npos);
  CHECK(css.find(".reserve { display: table-footer-group; break-inside: avoid;") !=
        std::string::npos);
}

TEST_CASE("what differs between screens stays off the paper") {
  // Paper wider than a breakpoint would get a screen's columns, which fit no sheet.
  const std::string css = html_style("");
  const std::string screen = css.substr(0, css.find("@media print"));
  std::size_t queries = 0;
  for (std::size_t at = screen.find("@media "); at != std::string::npos;
       at = screen.find("@media ", at + 1)) {
    const std::string query = screen.substr(at, screen.find('{', at) - at);
    CAPTURE(query);
    const bool only_screen = query.find("screen ") == 7;
    const bool lists_of_facts = query == "@media (min-width: 40rem) ";
    const bool colours = query == "@media (prefers-color-scheme: dark) ";
    const bool narrow = query == "@media (max-width: 40rem) ";
    CHECK((only_screen || lists_of_facts || colours || narrow));
    ++queries;
  }
  CHECK(queries > 5);
}
