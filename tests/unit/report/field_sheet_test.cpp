#include "hailwright/report/field_sheet.hpp"

#include <algorithm>
#include <fstream>
#include <iterator>
#include <set>
#include <sstream>
#include <string>
#include <variant>
#include <vector>

#include "hailwright/core/contract.hpp"
#include "hailwright/model/findings.hpp"
#include "hailwright/model/safety_questions.hpp"
#include "hailwright/report/render.hpp"
#include "support/catch.hpp"
#include "support/markup.hpp"

using namespace hailwright;

namespace {

/// The gate's leave for a small sling, every question answered by its own example.
Clearance leave() {
  SafetyAnswers answers;
  for (const SafetyQuestion& question : safety_questions())
    answers.blocks[std::string(question.block)][std::string(question.key)].text = question.example;
  PlanDangers dangers;
  dangers.launcher = Launcher::sling;
  dangers.muzzle_energy = Energy::from_si(2.3);
  dangers.per_area = EnergyPerArea::from_si(4700.0);
  dangers.no_air_reach = Length::from_si(61.0);
  dangers.cold_voltages = {Voltage::from_si(24.3)};
  dangers.freezer = TemperaturePoint::from_celsius(-18.0);
  const GateResult result = Gate::ask(answers, dangers, answers.blocks["agreed"]["on"].text);
  for (const GateFinding& finding : result.findings)
    UNSCOPED_INFO(finding.block << ": " << finding.key << ": " << finding.wanted);
  REQUIRE(result.clearance.has_value());
  return *result.clearance;
}

FieldSheet small_sheet() {
  FieldSheet sheet;
  sheet.speed_columns = {"frames"};
  sheet.panel = "Rigid A";
  sheet.test_title = "Garden hail test";
  sheet.fingerprint = "2026-06-10 7f3a-9c01-52de";
  sheet.series = {{"small",
                   "25 mm ice, 7.53 g",
                   "mark 3",
                   "21.9 m/s or more",
                   "7.2 g to 7.9 g",
                   "23.8 mm to 26.3 mm",
                   {{1, "corner", "40 x 40 mm"}, {2, "edge", "255 x 12 mm"}},
                   9,
                   1},
                  {"large",
                   "35 mm ice, 20.7 g",
                   "mark 5",
                   "25.8 m/s or more",
                   "",
                   "",
                   {{3, "middle", "510 x 255 mm"}},
                   3,
                   2}};
  sheet.aim_map = {"aim-map-a", "Aim map of Rigid A", "Three places.", "<svg/>"};
  sheet.stop_rules = {"anyone in front", "glass breaks"};
  sheet.cautions = {{"body_hit_any", "Ice ball strikes a person", "Nobody in front.", "EN 71-1"}};
  sheet.reading_order = {"C", "A", "A", "C"};
  sheet.setups_before = 3;
  sheet.setups_after = 2;
  sheet.readings = 2;
  sheet.control = true;
  return sheet;
}

Document composed(const FieldSheet& sheet) {
  Document out;
  append_field_sheet(leave(), sheet, out);
  return out;
}

template <class Kind>
std::vector<Kind> all(const Document& document) {
  std::vector<Kind> found;
  for (const Block& block : document.blocks) {
    if (const auto* one = std::get_if<Kind>(&block)) found.push_back(*one);
  }
  return found;
}

Table table_called(const Document& document, const std::string& caption) {
  for (const Table& table : all<Table>(document)) {
    if (table.caption == caption) return table;
  }
  FAIL("no table \"" << caption << '"');
  return {};
}

std::vector<std::string> titles(const Table& table) {
  std::vector<std::string> words;
  for (const Column& column : table.columns)
    words.push_back(column.title);
  return words;
}

using Row = std::vector<std::string>;

}  // namespace

TEST_CASE("the sheet says whose panel it is and who answered the gate") {
  const Document document = composed(small_sheet());
  CHECK(document.title == "Field sheets: Garden hail test");
  const auto facts = all<Facts>(document).front().items;
  REQUIRE(facts.size() == 3);
  CHECK(facts[1].label == "planned");
  CHECK(facts[1].lines.front().front().text == "2026-06-10 7f3a-9c01-52de");
  const Clearance clearance = leave();
  CHECK(facts[2].lines.front().front().text ==
        "by " + clearance.agreed_by() + " on " + clearance.agreed_on());
}

TEST_CASE("each part names its panel, since sheets lie about loose") {
  for (const Heading& heading : all<Heading>(composed(small_sheet()))) {
    if (heading.level == 2) CHECK(heading.text.front().text.substr(0, 9) == "Rigid A: ");
  }
}

TEST_CASE("the shortest caution stands at the foot of every sheet, all cautions on the first") {
  const Document document = composed(small_sheet());
  CHECK_THAT(document.foot, Contains("Nobody in front of the launcher") && Contains("Goggles on"));
  const auto lists = all<CautionList>(document);
  REQUIRE(lists.size() == 1);
  REQUIRE(lists.front().items.size() == 1);
  CHECK(lists.front().items.front().text == "Nobody in front.");
  // What the caller has put there stays.
  Document own;
  own.title = "T";
  own.foot = "F";
  append_field_sheet(leave(), small_sheet(), own);
  CHECK(own.title == "T");
  CHECK(own.foot == "F");
}

TEST_CASE("readings: a form for each set-up, in the order of reading") {
  const Document document = composed(small_sheet());
  const Table table = table_called(document, "readings, setup before 1");
  CHECK(table.to_fill_in);
  CHECK(table.rows == std::vector<Row>{{"", "C", "", "", "", ""},
                                       {"", "A", "", "", "", ""},
                                       {"", "A", "", "", "", ""},
                                       {"", "C", "", "", "", ""},
                                       {"", "", "", "", "", ""}});
  int setups = 0;
  for (const Table& one : all<Table>(document)) {
    if (one.caption.substr(0, 9) == "readings,") ++setups;
  }
  CHECK(setups == 5);
  table_called(document, "readings, setup before 3");
  table_called(document, "readings, setup after 2");
}

TEST_CASE("readings: without an order as many rows as readings of all panels") {
  FieldSheet sheet = small_sheet();
  sheet.reading_order.clear();
  CHECK(table_called(composed(sheet), "readings, setup before 1").rows.size() == 2 * 2 + 1);
  sheet.control = false;
  CHECK(table_called(composed(sheet), "readings, setup before 1").rows.size() == 2 + 1);
}

TEST_CASE("readings: of siblings, with what each letter is") {
  FieldSheet sheet = small_sheet();
  sheet.reading_order.clear();
  sheet.control = false;
  sheet.label = "A";
  sheet.siblings = {"B", "C", "D"};
  sheet.setups_before = 0;
  const Document document = composed(sheet);
  CHECK(table_called(document, "readings, setup after 1").rows.size() == 2 * 4 + 1);
  std::string said;
  for (const Paragraph& paragraph : all<Paragraph>(document)) {
    for (const Run& run : paragraph.text)
      said += run.text;
  }
  CHECK_THAT(said, Contains("A is the struck panel") &&
                       Contains("label: A, siblings: [{label: B}, {label: C}, {label: D}]"));
  for (const Heading& heading : all<Heading>(document))
    CHECK_THAT(heading.text.front().text, !Contains("before the shots"));
}

TEST_CASE("a test by looks alone has no forms for readings") {
  FieldSheet sheet = small_sheet();
  sheet.setups_before = 0;
  sheet.setups_after = 0;
  for (const Table& table : all<Table>(composed(sheet)))
    CHECK(table.caption.substr(0, 8) != "readings");
}

TEST_CASE("shots: a row for each throw at a place, then spare ones for the other balls") {
  const Document document = composed(small_sheet());
  const Table small = table_called(document, "shots, series small");
  REQUIRE(small.rows.size() == 9);
  CHECK(small.rows[0] == Row{"1", "corner", "40 x 40 mm", "", "", "", "", ""});
  CHECK(small.rows[1] == Row{"2", "edge", "255 x 12 mm", "", "", "", "", ""});
  CHECK(small.rows[2] == Row(8));
  // Never fewer than four spare rows, whatever was planned; two shots at the one place.
  const Table large = table_called(document, "shots, series large");
  REQUIRE(large.rows.size() == 2 + 4);
  CHECK(large.rows[1] == Row{"3", "middle", "510 x 255 mm", "", "", "", "", ""});
}

TEST_CASE("shots: the windows stand beside the form, and what stops the throwing") {
  const std::string text = render_console(composed(small_sheet()), {80, false});
  CHECK_THAT(text, Contains("speed     21.9 m/s or more") && Contains("mass      7.2 g to 7.9 g") &&
                       Contains("diameter  23.8 mm to 26.3 mm") && Contains("setting  mark 5"));
  CHECK_THAT(text, Contains("Stop at once: anyone in front; glass breaks"));
}

TEST_CASE("trials: rows for each setting once") {
  FieldSheet sheet = small_sheet();
  CHECK(table_called(composed(sheet), "trials").rows.size() == 20);
  sheet.series[1].setting = "mark 3";
  const Table table = table_called(composed(sheet), "trials");
  CHECK(table.rows.size() == 10);
  CHECK(table.rows[9].front() == "mark 3");
}

TEST_CASE("looks: a moment before and after each series, and the closed list of things seen") {
  const Document document = composed(small_sheet());
  std::set<std::string> moments;
  for (const Row& row : table_called(document, "looks").rows)
    moments.insert(row.front());
  CHECK(moments == std::set<std::string>{"start", "after small", "after large"});
  const Table kinds = table_called(document, "What can be seen");
  REQUIRE(kinds.rows.size() == finding_kinds().size());
  for (std::size_t i = 0; i < kinds.rows.size(); ++i)
    CHECK(kinds.rows[i][0] == finding_kinds()[i].word);
}

TEST_CASE("the columns are those of the page about tables") {
  std::ifstream in(std::string(HAILWRIGHT_SOURCE_DIR) + "/docs/tables.md");
  std::string page{std::istreambuf_iterator<char>(in), {}};
  REQUIRE(!page.empty());
  const Document document = composed(small_sheet());
  const auto check = [&](const std::string& caption, const std::string& section,
                         const std::set<std::string>& of_the_sheet) {
    const std::size_t from = page.find("\n## " + section + "\n");
    REQUIRE(from != std::string::npos);
    const std::string part = page.substr(from, page.find("\n## ", from + 1) - from);
    for (const std::string& title : titles(table_called(document, caption))) {
      if (of_the_sheet.count(title) == 1) continue;
      const std::string name = title.substr(0, title.find(' '));
      const bool known = part.find('`' + name + '`') != std::string::npos ||
                         part.find('`' + title + '`') != std::string::npos ||
                         part.find(title + ',') != std::string::npos;
      CAPTURE(caption, title);
      CHECK(known);
    }
  };
  check("balls", "balls", {});
  check("trials", "trials", {});
  // Of `landed` each word has a column to tick.
  check("shots, series small", "shots", {"map", "position"});
  check("readings, setup before 1", "readings", {});
}

TEST_CASE("without the panel's size the sheet says that there is no map") {
  FieldSheet sheet = small_sheet();
  sheet.aim_map = {};
  const Document document = composed(sheet);
  CHECK(all<Figure>(document).empty());
  CHECK_THAT(render_console(document, {80, false}),
             Contains("No aim map: the panel file gives no size."));
}

TEST_CASE("sheets of two panels follow each other, and every format holds them") {
  FieldSheet other = small_sheet();
  other.panel = "Flexible <B>";
  other.aim_map.id = "aim-map-b";
  Document document = composed(small_sheet());
  append_field_sheet(leave(), other, document);
  const auto page = markup::read(render_html(document));
  CHECK(markup::count(page, "svg") == 2);
  CHECK_THAT(render_html(document),
             Contains("style=\"break-before: page\">Flexible &lt;B&gt;</h2>"));
  CHECK_THAT(render_markdown(document), Contains("- [ ] everybody here has read the cautions"));
  CHECK(render_html(document) == render_html(document));
}

TEST_CASE("a sheet without a panel's name or without cautions is a broken promise") {
  FieldSheet sheet = small_sheet();
  sheet.panel.clear();
  CHECK_THROWS_AS(composed(sheet), BugError);
  sheet = small_sheet();
  sheet.cautions.clear();
  CHECK_THROWS_AS(composed(sheet), BugError);
  sheet = small_sheet();
  sheet.series[0].name.clear();
  CHECK_THROWS_AS(composed(sheet), BugError);
}

TEST_CASE("trials and shots have the columns of the way the speed is measured") {
  FieldSheet sheet = small_sheet();
  sheet.speed_columns = {"frames", "moved mm"};
  const auto has = [](const Table& table, const std::string& title) {
    return std::any_of(table.columns.begin(), table.columns.end(),
                       [&](const Column& c) { return c.title == title; });
  };
  CHECK(has(table_called(composed(sheet), "trials"), "moved mm"));
  CHECK_FALSE(
      has(table_called(composed(sheet), "shots, series " + sheet.series[0].name), "frames"));
  sheet.each_shot_measured = true;
  const Document document = composed(sheet);
  CHECK(has(table_called(document, "shots, series " + sheet.series[0].name), "moved mm"));
  for (const Table& table : all<Table>(document))
    CHECK(table.caption != "trials");
}
