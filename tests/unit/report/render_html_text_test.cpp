#include "report/render_html_text.hpp"

#include "hailwright/core/contract.hpp"
#include "support/catch.hpp"

using namespace hailwright;
using namespace hailwright::detail;

namespace {

LinkTargets targets() {
  return {{"power"}, {"map"}};
}

}  // namespace

TEST_CASE("what could act as markup is escaped for a page") {
  CHECK(html_escaped(R"(<b>"A" & '=1+1' |x|)") ==
        "&lt;b&gt;&quot;A&quot; &amp; &#39;=1+1&#39; |x|");
  CHECK(html_escaped("\x1b\u202e\x80\uFFFE") == "????");
  CHECK(html_escaped("\u00fc \U0001F468") == "\u00fc \U0001F468");
}

TEST_CASE("an element with and without attributes") {
  CHECK(html_element("p", "a") == "<p>a</p>");
  CHECK(html_element("p", "", "class=\"b\"") == "<p class=\"b\"></p>");
}

TEST_CASE("links of a page") {
  const auto link = [](const char* words, const char* to) {
    return html_words({{words, Tone::plain, to}}, targets());
  };
  CHECK(link("a", "https://example.org/?b=1&c='d'") ==
        "<a href=\"https://example.org/?b=1&amp;c=&#39;d&#39;\" rel=\"noreferrer\" "
        "class=\"spelled\">a</a>");
  CHECK(link("example.org/b", "https://example.org/b") ==
        "<a href=\"https://example.org/b\" rel=\"noreferrer\">example.org/b</a>");
  CHECK(link("<a>", "#power") == "<a href=\"#power\">&lt;a&gt;</a>");
  CHECK(link("a", "#map") == "<a href=\"#map_figure\">a</a>");
  CHECK(link("a", "inputs/a b.yaml") == "<a href=\"inputs/a%20b.yaml\">a</a>");
  CHECK(link("a", "") == "a");
  CHECK(link("", "#power").empty());
  CHECK_THROWS_AS(link("a", "#other"), BugError);
  CHECK_THROWS_AS(link("a", "javascript:a"), BugError);
}

TEST_CASE("words of several tones share one link") {
  CHECK(html_words({{"a ", Tone::plain, "#power"}, {"b", Tone::bad, "#power"}, {"c", Tone::good}},
                   targets()) == "<a href=\"#power\">a <strong class=\"bad\">b</strong></a><strong "
                                 "class=\"good\">c</strong>");
}

// Found by review: a line ended between a number and its unit, most often its per cent.
TEST_CASE("a number and its unit stay on one line") {
  const auto words = [](const char* text) { return html_words(plain(text), targets()); };
  CHECK(words("0.7 % (95 %: -0.8 % to 2.1 %)") ==
        "0.7\u00A0% (95\u00A0%: -0.8\u00A0% to 2.1\u00A0%)");
  CHECK(words("at 1000 W/m2, 25 degC, 35 mm ice") ==
        "at 1000\u00A0W/m2, 25\u00A0degC, 35\u00A0mm ice");
  CHECK(words("24 throws, 4 Ways, 3 and P1 m") == "24 throws, 4 Ways, 3 and P1\u00A0m");
  CHECK(words("a % of b m") == "a % of b m");
  CHECK(words("9 times in 10 ") == "9 times in 10 ");
}

TEST_CASE("what a reader would not see is blank") {
  CHECK(is_blank(" \n"));
  CHECK(is_blank(Runs{{" ", Tone::bad}}));
  CHECK_FALSE(is_blank("a"));
}

TEST_CASE("a figure has an id that no heading can have") {
  CHECK(figure_id("map") == "map_figure");
}
