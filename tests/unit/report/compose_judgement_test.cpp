#include "hailwright/report/compose.hpp"

#include <regex>
#include <variant>

#include "hailwright/report/render.hpp"
#include "support/catch.hpp"
#include "support/test_builder.hpp"

using namespace hailwright;
using hailwright::testing::seen;
using hailwright::testing::TestBuilder;

namespace {

std::string screen(const TestBuilder& builder) {
  const Test test = builder.build();
  const Assessment a = assess(test);
  return render_console(compose_judgement({{&test, &a}}, SourceSet()), {});
}

/// The words without the line breaks of the screen.
std::string words(const TestBuilder& builder) {
  return std::regex_replace(screen(builder), std::regex("\\s+"), " ");
}

}  // namespace

TEST_CASE("judgement: the verdict comes first, the cautions last") {
  const std::string s = screen(TestBuilder());
  const auto at = [&](const char* words) { return s.find(words); };
  CHECK(at("This panel withstood") < at("What was delivered"));
  CHECK(at("What was delivered") < at("What changed"));
  CHECK(at("What changed") < at("What this test could have seen"));
  CHECK(at("What this test could have seen") < at("Where the uncertainty comes from"));
  CHECK(at("Where the uncertainty comes from") < at("Assumed for you"));
  CHECK(at("Assumed for you") < at("Cautions"));
  CHECK(at("Cautions") != std::string::npos);
  CHECK(s.ends_with("laboratory.\n"));
}

TEST_CASE("judgement: misses, broken balls, skips, deviations and incidents stay") {
  TestBuilder b;
  Shot shot = b.test.record.shots[0];
  shot.landing = Landing::broke;
  b.test.record.shots.push_back(shot);
  shot.landing = Landing::miss;
  b.test.record.shots.push_back(shot);
  b.test.record.unlike_protocol = {"wind rose in the afternoon"};
  b.test.record.incidents = std::vector<std::string>{"a ball went over the fence"};
  Test t = b.build();
  t.record.readings[0].skip = "cloud";
  const Assessment a = assess(t);
  const std::string s = render_console(compose_judgement({{&t, &a}}, SourceSet()), {});
  CHECK_THAT(s, Contains("5 throws") && Contains("1 miss, 1 broke"));
  CHECK_THAT(s, Contains("wind rose") && Contains("over the fence") && Contains("cloud"));
}

TEST_CASE("judgement: a thing seen is given with its standing") {
  CHECK_THAT(words(TestBuilder().look(0, {seen("scuff", "place 1")})),
             Contains("scuff (place 1; new, not a major defect)"));
  CHECK_THAT(words(TestBuilder().look(0, {seen("broken front", "left")})),
             Contains("new, a major defect"));
  CHECK_THAT(words(TestBuilder().no_look_at_start().look(0, {seen("broken front", "left")})),
             Contains("whether it is new is not known"));
}

TEST_CASE("judgement: hits at an angle say so") {
  TestBuilder b;
  for (Shot& s : b.test.record.shots)
    s.angle = Angle::from_si(0.3);
  CHECK_THAT(words(b), Contains("17 deg from straight on"));
}

TEST_CASE("judgement: a look between two throws is dated by the throw") {
  TestBuilder b;
  Look between;
  between.after = 0;
  between.after_throw = 2;
  b.test.record.looks.insert(b.test.record.looks.begin() + 1, between);
  CHECK_THAT(words(b), Contains("after throw 2 (small): nothing seen"));
}

TEST_CASE("judgement: two records are two parts with one list of cautions") {
  const Test one = TestBuilder().build();
  TestBuilder b;
  b.test.record.title = "Panel B";
  const Test two = b.build();
  const Assessment a1 = assess(one);
  const Assessment a2 = assess(two);
  const Document d = compose_judgement({{&one, &a1}, {&two, &a2}}, SourceSet());
  int lists = 0;
  for (const Block& block : d.blocks)
    lists += std::holds_alternative<CautionList>(block) ? 1 : 0;
  CHECK(lists == 1);
  CHECK_THAT(render_markdown(d), Contains("Panel A") && Contains("Panel B"));
}

TEST_CASE("judgement: hostile labels cannot steer the terminal") {
  TestBuilder b;
  b.test.record.title = "\x1b[31mA\x07";
  b.test.record.unlike_protocol = {"x\x1b]0;title\x07"};
  CHECK_THAT(screen(b), !Contains("\x1b"));
}
