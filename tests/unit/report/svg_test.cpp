#include "report/svg.hpp"

#include <limits>

#include "hailwright/core/contract.hpp"
#include "support/catch.hpp"

using namespace hailwright;
using namespace hailwright::detail;

// Extensible Markup Language (XML) 1.0, sections 2.2 and 2.4 (from memory): what must be escaped,
// and that control characters cannot stand in a file at all.
TEST_CASE("svg: no text can end an element, an attribute or the picture") {
  CHECK(svg_escaped("a < b & \"c\" > d") == "a &lt; b &amp; &quot;c&quot; &gt; d");
  CHECK(svg_escaped("</svg><script>") == "&lt;/svg&gt;&lt;script&gt;");
  CHECK(svg_escaped(std::string("a\x01") + "b") == "a?b");
  CHECK(svg_escaped("a\u202eb") == "a?b");
  CHECK(svg_escaped("\xff") == "?");
  CHECK(svg_escaped("Prüfling €") == "Prüfling €");
}

TEST_CASE("svg: numbers are short, and the same everywhere") {
  CHECK(svg_number(880.0) == "880");
  CHECK(svg_number(12.5) == "12.5");
  CHECK(svg_number(1.0 / 3.0) == "0.33");
  CHECK(svg_number(-0.001) == "0");
  CHECK(svg_number(-2.25) == "-2.25");
  CHECK(svg_number(100.0) == "100");
  CHECK(svg_number(1234567.891) == "1234567.89");
  CHECK_THROWS_AS(svg_number(std::numeric_limits<double>::infinity()), BugError);
}

TEST_CASE("svg: elements stand one below the other") {
  Svg svg;
  svg.open("svg", {{"width", 10.0}});
  svg.open("g");
  svg.leaf("rect", {{"x", 1.5}, {"fill", "#fff"}});
  svg.close();
  svg.words("text", {{"id", std::string("a\"b")}}, "1 < 2");
  svg.close();
  CHECK(svg.str() == "<svg width=\"10\">\n"
                     "  <g>\n"
                     "    <rect x=\"1.5\" fill=\"#fff\"/>\n"
                     "  </g>\n"
                     "  <text id=\"a&quot;b\">1 &lt; 2</text>\n"
                     "</svg>\n");
  CHECK_THROWS_AS(svg.close(), BugError);
  svg.open("g");
  CHECK_THROWS_AS(svg.str(), BugError);
}
