#include "hailwright/model/safety_questions.hpp"
#include "report/report_sections.hpp"
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

std::string section(Section append, const WrittenUp& c) {
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
  CHECK_THAT(section(append_left_out, WrittenUp(test)),
             Contains("**missed the panel**: throws 1 and 3") &&
                 Contains("**broke before the panel**: none") && Contains("cloud") &&
                 Contains("What was assumed") && !Contains("Write instead"));
}

TEST_CASE("report conduct: nothing assumed is said too") {
  WrittenUp c{TestBuilder()};
  c.assessment().assumed.clear();
  CHECK_THAT(section(append_left_out, c),
             Contains("the files state every value") && Contains("**readings not counted**: none"));
}

TEST_CASE("report conduct: opinions are marked as such and only there if there are any") {
  TestBuilder b;
  CHECK(section(append_opinions, WrittenUp(b)).empty());
  b.test.record.write_up.opinions = {"the frame seems stiff", "<b>=1+1</b>"};
  CHECK_THAT(section(append_opinions, WrittenUp(b)),
             Contains("What follows is opinion. No result above rests on it.") &&
                 Contains("the frame seems stiff"));
}

TEST_CASE("report conduct: each answer of the safety blocks stands with its question") {
  const WrittenUp c = written_demo({"rigid-withstood"});
  const std::string text = section(append_safety, c);
  int answered = 0;
  for (const auto& [block, answers] : c.test().protocol.safety.blocks) {
    for (const auto& [key, answer] : answers) {
      CAPTURE(block, key);
      const SafetyQuestion* question = find_safety_question(block, key);
      REQUIRE(question != nullptr);
      CHECK_THAT(text, Contains(std::string(question->asks) + ": " + answer.text));
      ++answered;
    }
  }
  CHECK(answered > 20);
  CHECK_THAT(text, Contains("It is no advice to anybody") && Contains("**incidents**: none"));
}

TEST_CASE("report conduct: incidents stand and measures that nobody stated say so") {
  TestBuilder b;
  b.test.protocol.safety = {};
  b.test.record.incidents = std::vector<std::string>{"a ball went over the fence"};
  CHECK_THAT(section(append_safety, WrittenUp(b)),
             Contains("**measures**: not stated") && Contains("a ball went over the fence"));
}

TEST_CASE("report conduct: who paid and where the panel goes") {
  TestBuilder b;
  b.test.record.disclosure = Disclosure{"me", "", "kept"};
  b.test.record.write_up.asked_by = "nobody";
  CHECK_THAT(section(append_whereabouts, WrittenUp(b)),
             Contains("**bought by**: me") && Contains("**asked for by**: nobody") &&
                 Contains("**interests of the reviewer**: not stated") &&
                 Contains("**the panel goes**: kept"));
}

TEST_CASE("report conduct: no incident and nothing stated are told apart") {
  // Found by review: both came out as "none stated".
  TestBuilder b;
  CHECK_THAT(section(append_safety, WrittenUp(b)), Contains("**incidents**: not stated"));
  b.test.record.incidents.emplace();
  CHECK_THAT(section(append_safety, WrittenUp(b)), Contains("**incidents**: none"));
}

TEST_CASE("report conduct: when the safety questions were answered is the day that is written") {
  // Found by review: "before the test" stood where the day was after it, and where nothing was
  // answered at all.
  TestBuilder b;
  CHECK_THAT(section(append_safety, WrittenUp(b)),
             Contains("The protocol answers no question on safety.") && !Contains("before"));
  auto& agreed = b.test.protocol.safety.blocks["agreed"];
  agreed["by"] = {"MK", {}};
  CHECK_THAT(section(append_safety, WrittenUp(b)), Contains("on a day that is not stated"));
  for (const auto& [day, order] : {std::pair("2026-06-10", "before the day of the test"),
                                   std::pair("2026-06-14", "the day of the test"),
                                   std::pair("2026-07-01", "after the test")}) {
    agreed["on"] = {day, {}};
    CAPTURE(day);
    CHECK_THAT(section(append_safety, WrittenUp(b)),
               Contains(std::string("As the protocol answers on ") + day + ", " + order + "."));
  }
}

TEST_CASE("report conduct: the file of the panel answers for who bought it") {
  // Found by review: "not stated" stood where the file of the panel said it.
  TestBuilder b;
  b.test.record.panel.came = Provenance{"a reader", "", "", ""};
  CHECK_THAT(section(append_whereabouts, WrittenUp(b)),
             Contains("**bought by**: a reader (by the file of the panel)"));
}
