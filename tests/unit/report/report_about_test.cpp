#include "report/report_sections.hpp"

#include "hailwright/core/quantity_text.hpp"
#include "hailwright/evaluate/price.hpp"
#include "support/catch.hpp"
#include "support/document_words.hpp"
#include "support/written_up.hpp"

using namespace hailwright;
using hailwright::testing::TestBuilder;
using hailwright::testing::words;
using hailwright::testing::written_demo;
using hailwright::testing::WrittenUp;

namespace {

using Section = void (*)(Document&, const ReportPart&);

void about(Document& out, const ReportPart& part) {
  append_about(out, part, report_id(part.write_up));
}

std::string section(Section append, const WrittenUp& c) {
  Document out;
  append(out, ReportPart(c.write_up, 0));
  return words(out);
}

}  // namespace

TEST_CASE("report about: what is not stated says so") {
  WrittenUp c{TestBuilder()};
  const std::string text = section(about, c);
  for (const char* label :
       {"author", "contact", "place of the test", "asked for by", "panel received", "issued"}) {
    CAPTURE(label);
    CHECK_THAT(text, Contains(std::string("**") + label + "**: not stated"));
  }
  CHECK_THAT(text, Contains(report_id(c.write_up)) && Contains("hailwright 1.2.3") &&
                       Contains("Not a certification test, and not a test to IEC 61215"));
}

TEST_CASE("report about: what is stated stands as typed") {
  TestBuilder b;
  b.test.record.write_up = {"N. N.",      "letters",    "a garden", "a reader",
                            "2026-05-20", "2026-06-20", {}};
  b.test.record.date = "2026-06-14";
  Look late;
  late.date = "2026-06-18";
  b.test.record.looks.push_back(late);
  Test test = b.build();
  for (Setup& setup : test.record.setups)
    setup.date = "2026-06-13";
  const std::string text = section(about, WrittenUp(test));
  CHECK_THAT(text, Contains("N. N.") && Contains("letters") && Contains("a garden") &&
                       Contains("a reader") && Contains("2026-05-20") && Contains("2026-06-20") &&
                       Contains("2026-06-13 to 2026-06-18; shots on 2026-06-14"));
}

TEST_CASE("report about: titles of one record and of several") {
  WrittenUp c{TestBuilder()};
  CHECK(report_title(c.write_up) == "Hail test: " + c.test().record.title);
  c.write_up.judged.push_back(c.write_up.judged[0]);
  CHECK(report_title(c.write_up) ==
        "Hail tests: " + c.test().record.title + "; " + c.test().record.title);
  c.write_up.judged.resize(7, c.write_up.judged[0]);
  CHECK(report_title(c.write_up) == "7 hail tests");
}

TEST_CASE("report about: the panel with its ratings and its price a watt") {
  WrittenUp c = written_demo({"rigid-withstood"});
  c.test().record.serial = "R-0117";
  const std::string text = section(append_item, c);
  // 89 EUR over the 97.2 W that judge prints.
  CHECK_THAT(text, Contains("R-0117") && Contains("framed glass, glass of 3.2 mm") &&
                       Contains("1020 x 510 x 35 mm") && Contains("9 x 4 cells") &&
                       Contains("open-circuit voltage: 22.1 V") && Contains("-0.38 %/K") &&
                       Contains("condition on arrival: new and without marks") &&
                       Contains("0.92 EUR a watt by the measured power before the shots, 97.2 W") &&
                       Contains("one of the same model stood unstruck beside it"));
}

TEST_CASE("report about: a panel of which little is known") {
  TestBuilder b;
  b.same_panel();
  b.test.record.panel = Panel{};
  b.test.record.panel.name = "Rigid A";
  const std::string text = section(append_item, WrittenUp(b));
  CHECK_THAT(text, Contains("**ratings**: not stated") && Contains("**price**: not stated") &&
                       Contains("**where it came from**: not stated") &&
                       Contains("one unit was struck. The results"));
}

TEST_CASE("report about: the rule and its risk in words") {
  TestBuilder b;
  b.test.protocol.decide.risk = percent(1);
  b.test.protocol.decide.looks = 2;
  b.test.protocol.decide.see = percent(3);
  b.test.record.unlike_protocol = {"place 2 not struck"};
  const std::string text = section(append_method, WrittenUp(b));
  CHECK_THAT(text, Contains("or a loss of power beyond 5 %") &&
                       Contains("in at most 1 of 100 tests") &&
                       Contains("2 looks at the result were planned") &&
                       Contains("meant to show a loss of 3 %") && Contains("place 2 not struck") &&
                       Contains("nothing was kept that shows"));
  b.test.protocol.decide.simple = true;
  CHECK_THAT(section(append_method, WrittenUp(b)), Contains("up to half the time"));
  b.test.protocol.decide.judges_power = false;
  b.test.record.unlike_protocol.clear();
  CHECK_THAT(section(append_method, WrittenUp(b)), Contains("power is not judged") &&
                                                       Contains("nothing stated") &&
                                                       !Contains("loss of power beyond"));
}

TEST_CASE("report about: each comparison is told as what it is") {
  const auto text = [](Comparison compare) {
    Test test = TestBuilder().build();
    test.protocol.measure.compare = compare;
    return comparison_text(test);
  };
  CHECK_THAT(text(Comparison::same_panel), Contains("with itself"));
  CHECK_THAT(text(Comparison::control_panel), Contains("unstruck one beside it"));
  CHECK_THAT(text(Comparison::sibling_panel), Contains("unstruck ones of its model"));
  CHECK(risk_of(DecisionRule{}) == percent(2.5));
}

TEST_CASE("report about: an extension is told beside the rule") {
  // Found by review: the risk that was planned stood there, and not the one that was used.
  TestBuilder b;
  b.test.protocol.decide.risk = percent(10);
  CHECK_THAT(section(append_method, WrittenUp(b)), !Contains("extended"));
  b.test.record.results_seen = 5;
  CHECK_THAT(section(append_method, WrittenUp(b)),
             Contains("extended after seeing the result") && Contains("judged at a risk of 2 %"));
}

TEST_CASE("report about: a unit that nothing struck is not called struck") {
  // Found by review: "one unit was struck" stood where every throw had missed.
  TestBuilder b;
  b.test.record.shots.clear();
  CHECK_THAT(section(append_item, WrittenUp(b)),
             Contains("one unit was tested, nothing struck it"));
}

TEST_CASE("report about: leads and substrings and prices of several shops") {
  TestBuilder b;
  Panel& panel = b.test.record.panel;
  panel.price = Money{89.0, "EUR"};
  panel.lowest_price = Money{79.0, "EUR"};
  panel.highest_price = Money{99.5, "EUR"};
  panel.lead_length = Length::from_si(0.9);
  panel.connector = "round plugs";
  panel.substrings = 2;
  panel.smallest_radius = Length::from_si(0.3);
  CHECK_THAT(section(append_item, WrittenUp(b)),
             Contains("89.00 EUR on average, from 79.00 EUR to 99.50 EUR") &&
                 Contains("leads: 0.90 m") && Contains("connector: round plugs") &&
                 Contains("2 substrings with a bypass diode each") &&
                 Contains("to a radius of: 300 mm"));
}

// Found by review: a toy panel of 0.486 W had its price reckoned "by 0.5 W".
TEST_CASE("report about: a very small panel keeps the digits of its power beside the price") {
  Test test = TestBuilder().build();
  test.record.panel.price = Money{3.49, "EUR"};
  for (Reading& r : test.record.readings)
    r.power = r.power * 0.005;
  const WrittenUp c(test);
  const auto watt = price_per_watt(c.test());
  REQUIRE(watt);
  CHECK_THAT(section(append_item, c),
             Contains(in_unit(watt->power, "W", 3) + " (u ") && Contains("3.49 EUR"));
}
