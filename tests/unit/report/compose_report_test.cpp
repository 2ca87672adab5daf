#include <algorithm>
#include <regex>
#include <set>

#include "hailwright/report/compose.hpp"
#include "hailwright/report/render.hpp"
#include "hailwright/report/write_up.hpp"
#include "support/catch.hpp"
#include "support/document_words.hpp"
#include "support/markup.hpp"
#include "support/written_up.hpp"

using namespace hailwright;
using hailwright::testing::demo_names;
using hailwright::testing::seen;
using hailwright::testing::TestBuilder;
using hailwright::testing::words;
using hailwright::testing::written_demo;
using hailwright::testing::WrittenUp;

namespace {

std::string text_of(const Runs& runs) {
  std::string text;
  for (const Run& run : runs)
    text += run.text;
  return text;
}

std::vector<std::string> headings(const Document& document, int level) {
  std::vector<std::string> titles;
  for (const Block& block : document.blocks) {
    const auto* heading = std::get_if<Heading>(&block);
    if (heading != nullptr && heading->level == level) titles.push_back(text_of(heading->text));
  }
  return titles;
}

/// Every line of every list of facts.
std::set<std::string> fact_lines(const Document& document) {
  std::set<std::string> lines;
  for (const Block& block : document.blocks) {
    const auto* facts = std::get_if<Facts>(&block);
    if (facts == nullptr) continue;
    for (const Fact& fact : facts->items) {
      for (const Runs& line : fact.lines)
        lines.insert(text_of(line));
    }
  }
  return lines;
}

}  // namespace

TEST_CASE("report: what to see first and then by the checklist") {
  const WrittenUp c{TestBuilder()};
  const Document d = compose_report(c.write_up);
  CHECK(d.title == "Hail test: " + c.test().record.title);
  CHECK_THAT(d.foot, Contains(report_id(c.write_up)));
  REQUIRE(std::holds_alternative<Opening>(d.blocks.front()));
  CHECK(headings(d, 1).empty());
  CHECK(headings(d, 2) == std::vector<std::string>{"Questions readers ask",
                                                   "The verdict and its reasons",
                                                   "About this report",
                                                   "The panel",
                                                   "Method, and what was done otherwise",
                                                   "Balls and ice",
                                                   "Speed",
                                                   "Mounting and day",
                                                   "What was delivered",
                                                   "Power",
                                                   "Where the uncertainty comes from",
                                                   "What was seen",
                                                   "What this test could have seen",
                                                   "What was assumed",
                                                   "Left out",
                                                   "Safety measures and incidents",
                                                   "Who paid, and where the panel goes",
                                                   "Readings",
                                                   "Cautions",
                                                   "Judge it again",
                                                   "What the numbers rest on"});
  CHECK(text_of(std::get<Paragraph>(d.blocks.back()).text) ==
        "End of report " + report_id(c.write_up) + ".");
}

TEST_CASE("report: all that judge says stands in it") {
  for (const std::string& name : demo_names()) {
    CAPTURE(name);
    const WrittenUp c = written_demo({name});
    const std::set<std::string> told = fact_lines(compose_report(c.write_up));
    const Document judgement = compose_judgement(c.write_up.judged, c.sources());
    for (const std::string& line : fact_lines(judgement)) {
      if (line.starts_with("bought by ")) continue;  // three facts of their own in the report
      CAPTURE(line);
      CHECK(told.contains(line));
    }
  }
}

TEST_CASE("report: every caution in full and nothing that no test can show") {
  static const std::regex claims(
      R"(\b(passed|met the standard|certified|IEC[- ]rated|class HW ?\d|undamaged|unaffected|hail[- ]?proof|safe distance|safe to use|chance that nothing happened|within error)\b|set-ups will settle it)",
      std::regex::icase);
  for (const std::string& name : demo_names()) {
    CAPTURE(name);
    const WrittenUp c = written_demo({name});
    const std::string text = words(compose_report(c.write_up));
    std::smatch claim;
    CHECK_FALSE(std::regex_search(text, claim, claims));
    const std::string escaped = std::regex_replace(text, std::regex(R"(\\)"), "");
    for (const Caution* caution : c.assessment().cautions) {
      CAPTURE(caution->id);
      CHECK_THAT(escaped, Contains(std::string(caution->text)));
    }
  }
}

TEST_CASE("report: the same gives the same and every link inside leads somewhere") {
  const WrittenUp all = written_demo();
  const std::string html = render_html(compose_report(all.write_up));
  CHECK(html == render_html(compose_report(all.write_up)));
  std::set<std::string> ids;
  std::vector<std::string> targets;
  for (const markup::Element& e : markup::read(html)) {
    const auto id = e.attributes.find("id");
    if (id != e.attributes.end()) {
      CAPTURE(id->second);
      CHECK(ids.insert(id->second).second);
    }
    const auto href = e.attributes.find("href");
    if (href != e.attributes.end() && href->second.starts_with("#"))
      targets.push_back(href->second.substr(1));
  }
  CHECK(targets.size() > 20);
  for (const std::string& target : targets) {
    CAPTURE(target);
    CHECK(ids.contains(target));
  }
}

TEST_CASE(
    "report: several records open together, stand side by side and share one list of cautions") {
  const WrittenUp one{TestBuilder()};
  TestBuilder b;
  b.test.record.title = "Panel B";
  WrittenUp two(b);
  WriteUp both = one.write_up;
  both.judged.push_back(two.write_up.judged[0]);
  both.photos.resize(2);
  const Document d = compose_report(both);
  CHECK(headings(d, 1) == std::vector<std::string>{"Side by side", one.test().record.title,
                                                   "Panel B", "Cautions", "Judge it again",
                                                   "What the numbers rest on"});
  CHECK(std::count_if(d.blocks.begin(), d.blocks.end(), [](const Block& block) {
          return std::holds_alternative<CautionList>(block);
        }) == 1);
  CHECK(std::count_if(d.blocks.begin(), d.blocks.end(), [](const Block& block) {
          return std::holds_alternative<Opening>(block);
        }) == 3);
  CHECK_THAT(words(d), Contains("Not a certification test. These panels alone") ||
                           Contains("**Not a certification test.** These panels alone"));
}

TEST_CASE("report: labels come out literally") {
  const std::string label = "<b>\"A\" & =1+1 |x|";
  TestBuilder b;
  b.test.record.title = label;
  b.test.record.serial = label;
  b.test.record.write_up = {label, label, label, label, "", "", {label}};
  b.test.record.unlike_protocol = {label};
  b.look(0, {seen("scuff", label.c_str())});
  const WrittenUp c(b);
  const std::string html = render_html(compose_report(c.write_up));
  int found = 0;
  for (const markup::Element& e : markup::read(html)) {
    CHECK(e.name != "b");
    if (e.text.find(label) != std::string::npos) ++found;
  }
  CHECK(found >= 8);
}
