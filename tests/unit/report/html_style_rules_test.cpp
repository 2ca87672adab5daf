#include "report/html_style_rules.hpp"

#include <string>

#include "support/catch.hpp"

using namespace hailwright::detail;

namespace {

/// The declarations after a selector, up to its brace.
std::string rule(std::string_view rules, const std::string& selector) {
  const std::size_t at = rules.find(selector + " {");
  REQUIRE(at != std::string_view::npos);
  return std::string(rules.substr(at, rules.find('}', at) - at));
}

}  // namespace

// Found by review: from 82rem on, the contents took a column from the opening, so that less of it
// stood on the screen than on a smaller one.
TEST_CASE("the contents stand beside the text and never beside the opening") {
  CHECK_THAT(rule(page_rules(), ".with-contents > main > :is(.opening, .skip)"),
             Contains("grid-column: 1 / -1;"));
  CHECK_THAT(rule(page_rules(), ".with-contents > main > nav"),
             Contains("grid-column: 1; grid-row: 3;"));
}

// Found by review: captions of tables ran out of their boxes, since they went by the window.
TEST_CASE("a caption is as wide as the box of its table") {
  CHECK_THAT(rule(block_rules(), "  caption"), Contains("100cqw"));
  CHECK_THAT(std::string(block_rules()),
             Contains("container-type: inline-size") && !Contains("100vw"));
}

// Found by review: a fact whose label takes two lines left a gap after its first line.
TEST_CASE("a label of two lines leaves its facts together") {
  CHECK_THAT(rule(block_rules(), "  dt"), Contains("grid-row: 1 / span 99;"));
}

TEST_CASE("numbers and short words stay in one line") {
  CHECK_THAT(std::string(block_rules()),
             Contains("tbody .number, tbody .short { white-space: nowrap; }"));
}

// Found by review: letters set wider, as some readers need them (WCAG 2.1, 1.4.12), ran out of the
// pictures, whose words cannot flow.
TEST_CASE("words of pictures keep their width") {
  CHECK_THAT(rule(block_rules(), ".picture svg text"),
             Contains("letter-spacing: normal !important; word-spacing: normal !important;"));
}

TEST_CASE("what stands beside the picture of an opening has room on screens alone") {
  const std::string rules(opening_rules());
  CHECK(rules.find("grid-template-columns") > rules.find("@media screen and (min-width: 64rem)"));
  CHECK_THAT(rules, Contains("minmax(0, 1fr) minmax(0, 1.15fr)"));
}
