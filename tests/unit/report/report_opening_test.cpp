#include "report/report_sections.hpp"
#include "report/sentences.hpp"
#include "support/catch.hpp"
#include "support/report_case.hpp"

using namespace hailwright;
using hailwright::testing::ReportCase;
using hailwright::testing::TestBuilder;

namespace {

Opening opening_of(const ReportCase& c) {
  Document out;
  append_opening(out, ReportPart(c.write_up, 0));
  REQUIRE(out.blocks.size() == 1);
  return std::get<Opening>(out.blocks[0]);
}

std::string text_of(const Runs& runs) {
  std::string text;
  for (const Run& run : runs)
    text += run.text;
  return text;
}

std::string fact(const Opening& opening, const std::string& label) {
  std::string text;
  for (const Fact& f : opening.facts) {
    if (f.label != label) continue;
    for (const Runs& line : f.lines)
      text += text_of(line) + "|";
  }
  return text;
}

}  // namespace

TEST_CASE("report opening: what a reader must see first") {
  ReportCase c("protocols/demo/rigid-withstood.yaml");
  const Opening o = opening_of(c);
  CHECK(text_of(o.sentence) == headline(c.test, c.assessment));
  CHECK(o.picture.id == "hit-map");
  CHECK_THAT(fact(o, "power"), Contains("loss 0.7 % (95 % interval -0.8 % to 2.1 %)") &&
                                   Contains("0.65 W of 97.25 W") &&
                                   Contains("beyond the limit of 5 %? no, within it") &&
                                   Contains("unstruck one beside it"));
  CHECK_THAT(fact(o, "throws"),
             Catch::Matchers::StartsWith("24 throws: 16 on a place, 1 elsewhere on the panel, 6 "
                                         "misses, 1 broke before it"));
  CHECK_THAT(fact(o, "hail"), Contains("small, ice of 25 mm: at least 1.93 J each") &&
                                  Contains("falling hail of 35 to 41 mm, about walnut"));
  CHECK(fact(o, "panel") == "bought by: the reviewer|goes now: kept and marked as struck|");
  CHECK_THAT(fact(o, "decided by"),
             Contains("a loss beyond 5 %, each wrong statement at a risk of 2.5 %") &&
                 Contains("that it was set before the test is not shown"));
}

TEST_CASE("report opening: the cautions in short with a way to all of them") {
  const Opening o = opening_of(ReportCase{TestBuilder()});
  REQUIRE(o.cautions.size() >= 3);
  CHECK_THAT(text_of(o.cautions[0]), Catch::Matchers::StartsWith("Not a certification test."));
  CHECK_THAT(text_of(o.cautions[1]), Contains("Hidden damage in a panel that still works"));
  CHECK(o.cautions.back()[0].link == "#cautions");
  CHECK_THAT(o.cautions.back()[0].text,
             Catch::Matchers::StartsWith("All ") && Contains("cautions in full"));
}

TEST_CASE("report opening: without a size the loss is the picture") {
  TestBuilder b;
  b.test.record.panel.size.reset();
  CHECK(opening_of(ReportCase(b)).picture.id == "loss");
  b.test.protocol.decide.judges_power = false;
  Test looks_alone = b.build();
  looks_alone.record.readings.clear();
  looks_alone.record.setups.clear();
  const Opening bare = opening_of(ReportCase(looks_alone));
  CHECK(bare.picture.svg.empty());
  CHECK_THAT(fact(bare, "power"), Contains("judges by looks alone"));
  CHECK_THAT(fact(bare, "decided by"), Contains("power is not judged"));
}

TEST_CASE("report opening: a result that does not count is not told as one that does") {
  const Opening rose = opening_of(ReportCase("protocols/demo/flexible-power-rose.yaml"));
  CHECK_THAT(fact(rose, "power"), Contains("not valid") && !Contains("beyond the limit"));
  const Opening once = opening_of(ReportCase("protocols/demo/rigid-undecided.yaml"));
  CHECK_THAT(fact(once, "power"), Contains("not compared"));
  CHECK(fact(once, "panel") == "bought by: not stated|goes now: not stated|");
}

TEST_CASE("report opening: a rule that was kept from before the test is said to be") {
  TestBuilder b;
  b.test.record.planned = PlannedLine{"2026-06-01", b.test.protocol.mark};
  b.test.record.date = "2026-06-14";
  CHECK_THAT(fact(opening_of(ReportCase(b)), "decided by"),
             Catch::Matchers::EndsWith("; set before the test|"));
  b.test.record.planned->date = "2026-06-15";
  CHECK_THAT(fact(opening_of(ReportCase(b)), "decided by"), Contains("is not shown"));
  b.test.protocol.decide.simple = true;
  CHECK_THAT(fact(opening_of(ReportCase(b)), "decided by"), Contains("a loss estimated beyond"));
}

TEST_CASE("report opening: hail that never struck is not called hard") {
  TestBuilder b;
  for (Shot& shot : b.test.record.shots)
    shot.landing = Landing::miss;
  CHECK_THAT(fact(opening_of(ReportCase(b)), "hail"), Contains("none struck the panel"));
}
