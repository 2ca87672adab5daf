#include "hailwright/report/compose_explanation.hpp"

#include <regex>

#include "hailwright/report/render.hpp"
#include "report/text_layout.hpp"
#include "support/catch.hpp"
#include "support/markup.hpp"
#include "support/test_builder.hpp"

using namespace hailwright;
using hailwright::testing::TestBuilder;

namespace {

Document explained(const TestBuilder& builder) {
  const Test test = builder.build();
  const Assessment a = assess(test);
  Document out;
  append_explanation(out, {&test, &a}, SourceSet());
  return out;
}

std::string words(const Document& d) {
  return std::regex_replace(render_console(d, {}), std::regex("\\s+"), " ");
}

int headings(const Document& d) {
  int n = 0;
  for (const Block& block : d.blocks) {
    const auto* heading = std::get_if<Heading>(&block);
    n += heading != nullptr && heading->level == 2 ? 1 : 0;
  }
  return n;
}

}  // namespace

TEST_CASE("explanation document: ten steps, each with its source and its page") {
  const Document d = explained(TestBuilder());
  CHECK(headings(d) == 10);
  const std::string text = words(d);
  for (const char* page :
       {"normalised-power", "setup-scatter", "instruments-and-scopes", "interval-and-decision",
        "smallest-loss", "random-trials", "hit-evidence", "shot-strength"}) {
    CAPTURE(page);
    CHECK_THAT(text, Contains("docs/methods/" + std::string(page) + ".md"));
  }
}

TEST_CASE("explanation document: why steps are left out") {
  CHECK_THAT(words(explained(TestBuilder().setups(1, 1))),
             Contains("Steps 1 to 8 are left out for the stage 'after': one set-up before"));
  TestBuilder by_looks;
  by_looks.test.protocol.decide.judges_power = false;
  const Document d = explained(by_looks);
  CHECK_THAT(words(d), Contains("the protocol decides by looks alone"));
  CHECK(headings(d) == 2);
  CHECK_THAT(words(explained(TestBuilder().no_final_stage())),
             Contains("no stage was read after what was done"));
}

TEST_CASE("explanation document: several stages are told apart") {
  const std::string text = words(explained(TestBuilder().second_series().stage_after(0, 0.0)));
  CHECK_THAT(text, Contains("2. Set-ups, stages, loss (after small)") &&
                       Contains("2. Set-ups, stages, loss (after)"));
}

TEST_CASE("explanation document: fits a screen, and is well-formed elsewhere") {
  const Document d = explained(TestBuilder().second_series());
  std::istringstream screen(render_console(d, {}));
  for (std::string line; std::getline(screen, line);) {
    INFO(line);
    CHECK(detail::display_width(line) <= 80);
  }
  CHECK_THAT(render_markdown(d), Contains("1. One reading"));
  const auto page = markup::read(render_html(d));
  CHECK(markup::count(page, "table") == 3);
  CHECK_THAT(render_html(d), Contains("10. The word"));
}
