#include "report/report_sections.hpp"
#include "support/catch.hpp"
#include "support/report_case.hpp"

using namespace hailwright;
using hailwright::testing::ReportCase;
using hailwright::testing::seen;
using hailwright::testing::TestBuilder;
using hailwright::testing::words;

namespace {

std::string answers(const ReportCase& c) {
  Document out;
  append_questions(out, ReportPart(c.write_up, 0));
  return words(out);
}

std::string answers(const TestBuilder& b) {
  return answers(ReportCase(b));
}

std::string demo(const char* name) {
  return answers(ReportCase(std::string("protocols/demo/") + name + ".yaml"));
}

}  // namespace

TEST_CASE("report questions: every one that readers ask") {
  const std::string all = demo("rigid-withstood");
  for (const char* question :
       {"Does it still give its power?", "How big a hail was that?",
        "Could a smaller loss have been missed?", "What failed first?", "May it go on being used?",
        "Does this hold for other panels of the model?", "Who paid?", "How sure is"}) {
    CAPTURE(question);
    CHECK_THAT(all, Contains(question));
  }
  CHECK_THAT(all, !Contains("What would settle it?"));
}

TEST_CASE("report questions: no drop shown is not told as no drop") {
  CHECK_THAT(
      demo("rigid-withstood"),
      Contains("A drop is not shown, which is not the same as none. The estimate is a loss of "
               "0.7 %") &&
          Contains("about 0.65 W of 97.25 W") &&
          Contains("Nothing that this test shows as damage") &&
          Contains("no drop of the power was shown"));
}

TEST_CASE("report questions: a loss that is shown is given in per cent and in watts") {
  CHECK_THAT(
      demo("flexible-damaged"),
      Contains("Less than before. A loss of 11.9 % (95 %: 10.5 % to 13.3 %) is shown, in full "
               "sun about 12.60 W of 105.74 W") &&
          Contains("The power: loss of power 11.9 %") && Contains("How sure is \"damaged\"?") &&
          Contains("By which hail: perhaps by harder"));
  CHECK_THAT(demo("flexible-siblings"), Contains("Less than unstruck ones of its model"));
}

TEST_CASE("report questions: what is open says what would close it") {
  CHECK_THAT(demo("rigid-not-reached"),
             Contains("What would settle it?") && Contains("large is not reached") &&
                 Contains("Hits there that are shown to be at least at the grade would"));
  CHECK_THAT(demo("flexible-power-rose"),
             Contains("small and large are undecided: the power result is not valid") &&
                 Contains("Only a comparison without that change would") &&
                 Contains("The result is not valid: the power seems to have risen"));
  CHECK_THAT(demo("flexible-extended"),
             Contains("On the power, no number of set-ups settles this"));
  CHECK_THAT(answers(TestBuilder().no_look_at_start()), Contains("Nothing can, for this panel"));
  CHECK_THAT(answers(TestBuilder().no_looks_after()), Contains("A look at the panel now"));
  TestBuilder cracked;
  CHECK_THAT(answers(cracked.look(0, {seen("cell crack", "place 2")})),
             Contains("Its share, read off the panel or a photo, would"));
}

TEST_CASE("report questions: power that was not measured or does not count") {
  TestBuilder b;
  CHECK_THAT(answers(b.no_final_stage()), Contains("Not known: there are no readings") &&
                                              Contains("Yes, any loss: no comparison") &&
                                              Contains("Readings after the shots would"));
  TestBuilder looks;
  looks.test.protocol.decide.judges_power = false;
  CHECK_THAT(answers(looks), Contains("Not measured: the protocol judges by looks alone") &&
                                 Contains("Power is no part of this verdict"));
  CHECK_THAT(demo("rigid-undecided"), Contains("Not compared: one set-up before and one after"));
  CHECK_THAT(answers(TestBuilder().setups(2, 2)), Contains("No answer is drawn: "));
  TestBuilder simple;
  simple.test.protocol.decide.simple = true;
  CHECK_THAT(answers(simple), Contains("up to half the time"));
}

TEST_CASE("report questions: the first defect that was seen") {
  TestBuilder b;
  b.second_series();
  b.look(1, {seen("broken front", "right"), seen("scuff", "left")});
  b.look(0, {seen("broken box", "back")});
  CHECK_THAT(answers(b),
             Contains("The first major defect that was seen: broken box (back), after small.") &&
                 Contains("It was seen: new major defect: broken box"));
}

TEST_CASE("report questions: using it further is never answered with yes") {
  for (const char* name : {"rigid-withstood", "flexible-damaged", "rigid-undecided"}) {
    const std::string all = demo(name);
    CAPTURE(name);
    const std::size_t at = all.find("May it go on being used?");
    REQUIRE(at != std::string::npos);
    const std::string answer = all.substr(at, all.find("Does this hold") - at);
    CHECK_THAT(answer, Contains("This test cannot say so, whatever its verdict") &&
                           Contains("Do not leave a struck panel charging unattended") &&
                           Contains("do not put it on a roof or vehicle") && !Contains("Yes"));
  }
}

TEST_CASE("report questions: several stages are told apart") {
  TestBuilder b;
  b.second_series().stage_after(0, 0.0);
  CHECK_THAT(answers(b), Contains("After small: a drop is") && Contains("After: a drop is"));
}

TEST_CASE("report questions: one unit is named and is not the model") {
  TestBuilder b;
  CHECK_THAT(answers(b), Contains("No. One unit was struck, and one panel is not the model"));
  b.test.record.serial = "R-0117";
  b.test.record.write_up.asked_by = "a reader";
  CHECK_THAT(answers(b), Contains("No. One unit, R-0117, was struck") &&
                             Contains("The test was asked for by: a reader"));
}
