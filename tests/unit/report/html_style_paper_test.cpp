#include <string>

#include "report/html_style_rules.hpp"
#include "support/catch.hpp"

using namespace hailwright::detail;

// Found by review: numbers broke inside their cells, on paper as 1/4/9./0/0.
TEST_CASE("nothing on paper lets a number break") {
  const std::string rules(paper_rules());
  CHECK_THAT(rules, !Contains("white-space: normal"));
  // Addresses alone may break anywhere.
  const std::size_t anywhere = rules.find("overflow-wrap: anywhere");
  CHECK(rules.rfind(".spelled::after", anywhere) > rules.rfind('}', anywhere));
  CHECK(rules.find("overflow-wrap: anywhere", anywhere + 1) == std::string::npos);
}

TEST_CASE("a table that fits no sheet gives way to the line that names its file") {
  CHECK_THAT(std::string(paper_rules()),
             Contains(".off-paper { display: none; }") && Contains(".on-paper { display: block;"));
  CHECK_THAT(std::string(page_rules()), Contains(".reserve, .on-paper { display: none; }"));
}

// Found by review: the map of the opening stood alone on the second sheet, and a heading or a line
// to copy was parted from what it introduces.
TEST_CASE("what belongs together stays on one sheet") {
  const std::string rules(paper_rules());
  for (const char* rule : {".opening .picture svg { max-height: 106mm; }", "p:has(+ pre)",
                           "main > .opening { break-after: page; }",
                           "h1, h2, h3, h4 { break-after: avoid; break-inside: avoid;"}) {
    CAPTURE(rule);
    CHECK_THAT(rules, Contains(rule));
  }
}

TEST_CASE("the contents of several panels are printed, and their sections say whose they are") {
  CHECK_THAT(std::string(paper_rules()),
             Contains(".skip, nav { display: none; }\n  nav.several") &&
                 Contains("h3[data-of]::after { content: \" (\" attr(data-of) \")\";"));
}
