#include <algorithm>
#include <regex>

#include "hailwright/report/line_up.hpp"
#include "hailwright/report/render.hpp"
#include "report/text_layout.hpp"
#include "support/catch.hpp"
#include "support/document_words.hpp"
#include "support/line_up_examples.hpp"
#include "support/markup.hpp"

using namespace hailwright;
using Catch::Matchers::EndsWith;
using Catch::Matchers::StartsWith;
using namespace hailwright::testing;

namespace {

std::string console(const LineUpExample& example) {
  return render_console(compose_line_up(example.view()), {});
}

/// As one line, without the marks of Markdown.
std::string said(const LineUpExample& example) {
  std::string text = words(compose_line_up(example.view()));
  text.erase(std::remove(text.begin(), text.end(), '\\'), text.end());
  return text;
}

std::vector<std::string> lines(const std::string& text) {
  std::vector<std::string> all;
  std::size_t at = 0;
  while (at < text.size()) {
    const std::size_t end = std::min(text.find('\n', at), text.size());
    all.push_back(text.substr(at, end - at));
    at = end + 1;
  }
  return all;
}

}  // namespace

TEST_CASE("compose_line_up: what it is, what is common, ranks as ranges") {
  const std::string text = console(five_panels());
  CHECK_THAT(text, StartsWith("Five small panels\n"));
  const std::string flat = said(five_panels());
  CHECK_THAT(flat,
             Contains("5 panels, each tested by itself. What is said to differ was shown at 5 "
                      "% risk for the whole group"));
  CHECK_THAT(text, Contains("comparison  with a control panel"));
  CHECK_THAT(text, Contains("\n  1-2   Rigid A  withstood") &&
                       Contains("\n  2-3   Rigid C  withstood") &&
                       Contains("\n  5     Flex E   withstood"));
}

TEST_CASE("compose_line_up: who differs from whom, by words and by pairs") {
  const std::string text = said(five_panels());
  CHECK_THAT(text, Contains("Rigid A lost less power than Rigid C, Flex D and Flex E."));
  CHECK_THAT(text, Contains("simultaneous interval, 95 % for all 10 pairs together (Bonferroni)"));
  CHECK_THAT(text, Contains("| Rigid A | Rigid B | 1.2 | -0.6 | 3.0 | 0.073 | no |"));
  CHECK_THAT(text, Contains("| Rigid A | Rigid C | 2.6 | 0.8 | 4.4 | below 0.001 | yes |"));
  CHECK_THAT(text, Contains("Rigid A and Rigid B could not be told apart, nor could Rigid B and "
                            "Rigid C; Rigid A and Rigid C could."));
}

TEST_CASE("compose_line_up: of nothing shown it says so and no more") {
  LineUpExample five = five_panels();
  for (LineUpDifference& d : five.line_up.groups[0].differences)
    d.shown = false;
  for (LineUpRank& rank : five.line_up.groups[0].ranks)
    rank.first = 1, rank.last = 5;
  const std::string text = said(five);
  CHECK_THAT(text, Contains("No two of these panels were shown to differ."));
  CHECK_THAT(text,
             Contains("Rigid A, Rigid B, Rigid C, Flex D and Flex E share the ranks 1-5: they "
                      "could not be told apart."));
}

TEST_CASE("compose_line_up: what is not ranked is listed with its reason") {
  const std::string text = console(eight_panels());
  CHECK_THAT(text, Contains("Listed and not ranked\n"));
  CHECK_THAT(text, Contains("Rigid G  no power was compared"));
  CHECK_THAT(text, Contains("not measured") && Contains("not stated"));
  const std::string ranked = text.substr(0, text.find("Listed and not ranked"));
  CHECK_THAT(ranked, !Contains("Rigid G"));
}

TEST_CASE("compose_line_up: one record is no line-up of several") {
  const std::string text = said(single_panel());
  CHECK_THAT(text, Contains("One panel is no line-up of several") && Contains("Rigid A"));
  CHECK_THAT(text, !Contains("Ranked:") && !Contains("p says"));
}

TEST_CASE("compose_line_up: up to twelve have their pairs, more do not") {
  CHECK_THAT(said(many_panels(12)), Contains("for all 66 pairs together"));
  const std::string text = said(many_panels(13));
  CHECK_THAT(text, !Contains("Bonferroni"));
  CHECK_THAT(text, Contains("In a group of more than 12, each is held against its neighbours"));
}

TEST_CASE("compose_line_up: of more than forty the top, the bottom and how many stand between") {
  CHECK_THAT(said(many_panels(40)), !Contains("stand between"));
  const std::string text = said(many_panels(2000));
  CHECK_THAT(text, Contains("1960 more stand between these and the last 20; line-up.csv, or "
                            "--format csv, has all."));
  CHECK_THAT(text, Contains("| Panel 20 |") && !Contains("| Panel 21 |"));
  CHECK_THAT(text, !Contains("| Panel 1980 |") && Contains("| Panel 1981 |"));
  CHECK(lines(console(many_panels(2000))).size() < 250);
}

TEST_CASE("compose_line_up: thousands that are not ranked are a list that ends") {
  LineUpExample many = many_panels(300);
  many.line_up.groups.clear();
  for (std::size_t i = 0; i < many.entries.size(); ++i)
    many.line_up.unranked.push_back({i, {}, true});
  const std::string text = console(many);
  CHECK_THAT(text, Contains("280 more are not ranked"));
  CHECK(lines(text).size() < 120);
}

TEST_CASE("compose_line_up: no line is wider than 80 columns") {
  for (const LineUpExample& example :
       {five_panels(), eight_panels(), single_panel(), many_panels(2000)}) {
    for (const std::string& line : lines(console(example))) {
      INFO(line);
      CHECK(hailwright::detail::display_width(line) <= 80);
    }
  }
  // The tables stay tables there.
  CHECK_THAT(console(many_panels(2000)), Contains("\n  rank    record"));
}

TEST_CASE("compose_line_up: cautions of all, each once, and the closing sentence") {
  for (const LineUpExample& example : {five_panels(), single_panel()}) {
    const std::string text = console(example);
    const std::size_t first = text.find("(broken_glass)");
    REQUIRE(first != std::string::npos);
    CHECK(text.find("(broken_glass)", first + 1) == std::string::npos);
    CHECK_THAT(said(example),
               EndsWith("an accredited laboratory. ") || EndsWith("an accredited laboratory."));
  }
}

// MEASUREMENT M15 and M18.
TEST_CASE("compose_line_up: no medals, no makers and no chance that nothing differs") {
  const std::regex never(
      "passed|certified(?! )|undamaged|no damage|unaffected|hail-?proof|safe distance|within error|"
      "brand|winner|medal|score|is better|better than|the best|chance that|probability that "
      "nothing|recommend",
      std::regex::icase);
  for (const LineUpExample& example :
       {five_panels(), eight_panels(), single_panel(), many_panels(60)}) {
    const std::string text = said(example);
    std::smatch found;
    if (std::regex_search(text, found, never)) FAIL_CHECK("said: " << found.str());
  }
}

TEST_CASE("compose_line_up: hostile names come out as text in every format") {
  LineUpExample five = five_panels();
  const std::string hostile = "=1+1 | <script>alert(1)</script> \x1b[31m **b** & \"q\"";
  LineUpEntry& e = five.entries[0];
  e.title = e.panel = e.connector = e.serial = e.path = hostile;
  e.shade = hostile;
  std::vector<std::string> all;
  for (const LineUpColumn& column : line_up_columns())
    all.emplace_back(column.word);
  LineUpView view = five.view(all);
  view.title = hostile;
  const Document document = compose_line_up(view);
  const std::string html = render_html(document);
  CHECK_THAT(html, !Contains("<script") && Contains("&lt;script&gt;"));
  CHECK_THAT(render_markdown(document), !Contains("<script>") && !Contains("**b**"));
  CHECK_THAT(render_console(document, {}), !Contains("\x1b"));
  const std::string csv = render_csv(line_up_tables(view).front());
  CHECK_THAT(csv, Contains("\"'=1+1 | <script>") && !Contains("\x1b"));
  CHECK_THAT(line_up_json(view), !Contains("\x1b") && Contains("\\u001b[31m"));
}
