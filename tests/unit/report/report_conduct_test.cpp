#include "hailwright/model/safety_questions.hpp"
#include "report/report_sections.hpp"
#include "support/catch.hpp"
#include "support/report_case.hpp"

using namespace hailwright;
using hailwright::testing::ReportCase;
using hailwright::testing::TestBuilder;
using hailwright::testing::words;

namespace {

using Section = void (*)(Document&, const ReportPart&);

std::string section(Section append, const ReportCase& c) {
  Document out;
  append(out, ReportPart(c.write_up, 0));
  return words(out);
}

}  // namespace

TEST_CASE("report conduct: misses and broken balls and skipped readings by their numbers") {
  TestBuilder b;
  for (Shot& shot : b.test.record.shots)
    shot.landing = Landing::in;
  b.test.record.shots[0].landing = Landing::miss;
  b.test.record.shots[2].landing = Landing::miss;
  Test test = b.build();
  test.record.readings[0].skip = "cloud";
  CHECK_THAT(section(append_left_out, ReportCase(test)),
             Contains("**missed the panel**: throws 1 and 3") &&
                 Contains("**broke before the panel**: none") && Contains("cloud") &&
                 Contains("Assumed for you"));
}

TEST_CASE("report conduct: nothing assumed is said too") {
  ReportCase c{TestBuilder()};
  c.assessment.assumed.clear();
  CHECK_THAT(section(append_left_out, c),
             Contains("the files state every value") && Contains("**readings not counted**: none"));
}

TEST_CASE("report conduct: opinions are marked as such and only there if there are any") {
  TestBuilder b;
  CHECK(section(append_opinions, ReportCase(b)).empty());
  b.test.record.write_up.opinions = {"the frame seems stiff", "<b>=1+1</b>"};
  CHECK_THAT(section(append_opinions, ReportCase(b)),
             Contains("What follows is opinion. No result above rests on it.") &&
                 Contains("the frame seems stiff"));
}

TEST_CASE("report conduct: each answer of the safety blocks stands with its question") {
  const ReportCase c("protocols/demo/rigid-withstood.yaml");
  const std::string text = section(append_safety, c);
  int answered = 0;
  for (const auto& [block, answers] : c.test.protocol.safety.blocks) {
    for (const auto& [key, answer] : answers) {
      CAPTURE(block, key);
      const SafetyQuestion* question = find_safety_question(block, key);
      REQUIRE(question != nullptr);
      CHECK_THAT(text, Contains(std::string(question->asks) + ": " + answer.text));
      ++answered;
    }
  }
  CHECK(answered > 20);
  CHECK_THAT(text, Contains("It is no advice to anybody") && Contains("none stated"));
}

TEST_CASE("report conduct: incidents stand and measures that nobody stated say so") {
  TestBuilder b;
  b.test.protocol.safety = {};
  b.test.record.incidents = {"a ball went over the fence"};
  CHECK_THAT(section(append_safety, ReportCase(b)),
             Contains("**measures**: not stated") && Contains("a ball went over the fence"));
}

TEST_CASE("report conduct: who paid and where the panel goes") {
  TestBuilder b;
  b.test.record.disclosure = Disclosure{"me", "", "kept"};
  b.test.record.write_up.asked_by = "nobody";
  CHECK_THAT(section(append_whereabouts, ReportCase(b)),
             Contains("**bought by**: me") && Contains("**asked for by**: nobody") &&
                 Contains("**interests of the reviewer**: not stated") &&
                 Contains("**the panel goes**: kept"));
}
