#include "report/render_markdown_text.hpp"

#include "hailwright/core/contract.hpp"
#include "support/catch.hpp"

using namespace hailwright;
using namespace hailwright::detail;

TEST_CASE("what flavours of Markdown act upon gets a backslash, and nothing else does") {
  CHECK(markdown_escaped(R"(<b>"A" & =1+1 |x|)") == R"(\<b\>"A" & =1+1 &#124;x&#124;)");
  CHECK(markdown_escaped("a -- b &copy; 2 * 3") == R"(a -\- b \&copy; 2 \* 3)");
  CHECK(markdown_escaped("12.5 mm (+0.3), 5 %; \u00b5") == "12.5 mm (+0.3), 5 %; \u00b5");
}

// Found by review: a bare address in a label became a link in GitHub's flavour, and a wrong one:
// the backslash before its & was taken as part of it.
TEST_CASE("addresses in labels are words and no links") {
  CHECK(markdown_escaped("http://a.invalid/?a=1&b=2") == R"(http\://a.invalid/?a=1\&b=2)");
  CHECK(markdown_escaped("see WWW.a.invalid, ftp://b") == R"(see WWW\.a.invalid, ftp\://b)");
  CHECK(markdown_escaped("http: w.w. ww. a://") == R"(http: w.w. ww. a\://)");
}

TEST_CASE("what would begin a list does not") {
  CHECK(at_line_start("1. a") == "1\\. a");
  CHECK(at_line_start("- a") == "\\- a");
  CHECK(at_line_start("-1.5 %") == "-1.5 %");
  CHECK(at_line_start("").empty());
}

TEST_CASE("where the links of a page of Markdown lead") {
  const MarkdownLinks links({"Power",
                             {Heading{1, plain("Power"), "a"}, Heading{1, plain("Power")},
                              Heading{2, plain("Power"), "b"}, Heading{1, plain("\u00d6l"), "c"},
                              Figure{"map", "M", "", ""}}});
  CHECK(links.address("").empty());
  CHECK(links.address("https://example.org/(a)") == "https://example.org/%28a%29");
  CHECK(links.address("a b.csv") == "a%20b.csv");
  CHECK(links.address("#a") == "#power-1");  // the title came first
  CHECK(links.address("#b") == "#power-3");
  CHECK(links.address("#c").empty());
  CHECK(links.address("#map").empty());
  CHECK_THROWS_AS(links.address("#d"), BugError);
  CHECK_THROWS_AS(links.address("ftp:a"), BugError);
}

TEST_CASE("words of Markdown with their tones and links") {
  const MarkdownLinks links({});
  CHECK(markdown_words({{"a ", Tone::plain}, {"b", Tone::bad}, {" c", Tone::good, "d.csv"}},
                       links) == "a **b** [**c**](d.csv)");
  CHECK(markdown_words({{"a [", Tone::plain, "d.csv"}}, links) == "[a \\[](d.csv)");
  CHECK(markdown_words({}, links).empty());
}
