#include "evaluate/line_up_traits.hpp"

#include "support/catch.hpp"
#include "support/test_builder.hpp"

using namespace hailwright;
using hailwright::testing::TestBuilder;

namespace {

std::vector<LineUpTrait> traits_of(const TestBuilder& builder) {
  const Test t = builder.build();
  return line_up_traits(t, assess(t, std::nullopt, Extent::verdicts));
}

}  // namespace

TEST_CASE("line-up traits: in words") {
  const std::vector<LineUpTrait> expected{{"series", "IEC 61215 25 mm at 3 places"},
                                          {"comparison", "control-panel"},
                                          {"limit", "5 %"},
                                          {"stages", "after the last series"}};
  CHECK(traits_of(TestBuilder()) == expected);
  const auto two = traits_of(TestBuilder().second_series().stage_after(0, 0.0));
  CHECK(two[0].text == "IEC 61215 25 mm at 3 places; IEC 61215 35 mm at 2 places");
  CHECK(two[3].text == "after series 1; after the last series");
}

TEST_CASE("line-up traits: readings after the one series are readings after all") {
  CHECK(traits_of(TestBuilder().stage_after(0, 0.0).no_final_stage()) == traits_of(TestBuilder()));
  CHECK(traits_of(TestBuilder().stage_after(0, 0.0)) == traits_of(TestBuilder()));
}

TEST_CASE("line-up traits: what makes records another kind") {
  const auto usual = traits_of(TestBuilder());
  CHECK(traits_of(TestBuilder().same_panel())[1].text == "same-panel");
  TestBuilder limit;
  limit.test.protocol.decide.limit = percent(2.5);
  CHECK(traits_of(limit)[2].text == "2.5 %");
  TestBuilder looks;
  looks.test.protocol.decide.judges_power = false;
  const auto by_looks = traits_of(looks);
  CHECK(by_looks[1].text == "none: judged on looks alone");
  CHECK(by_looks[2].text == "none");
  CHECK(by_looks[3].text == "none");
  TestBuilder corners;
  for (Place& p : corners.test.protocol.series[0].places)
    p.name = "corner " + p.name;
  CHECK(traits_of(corners)[0].text == "IEC 61215 25 mm at 3 places (corner 1, corner 2, corner 3)");
  TestBuilder tolerance;
  tolerance.test.protocol.series[0].target.tolerance = percent(10);
  CHECK(traits_of(tolerance)[0].text != usual[0].text);
  // How a protocol calls its series is its own business.
  TestBuilder renamed;
  renamed.test.protocol.series[0].name = "first";
  CHECK(traits_of(renamed) == usual);
}

TEST_CASE("line-up traits: stages in words") {
  const Protocol p = TestBuilder().second_series().build().protocol;
  CHECK(stage_words(p, {StageKind::before, 0}) == "before");
  CHECK(stage_words(p, {StageKind::after_series, 1}) == "after large");
  CHECK(stage_words(p, {StageKind::after, 0}) == "after");
}

TEST_CASE("line-up traits: one place, no series, siblings") {
  TestBuilder one;
  one.test.protocol.series[0].places.resize(1);
  one.test.record.shots.resize(1);
  CHECK(traits_of(one)[0].text == "IEC 61215 25 mm at 1 place");
  TestBuilder none;
  none.test.protocol.series.clear();
  none.test.record.shots.clear();
  std::erase_if(none.test.record.looks, [](const Look& l) { return !l.start; });
  none.no_final_stage();
  CHECK(traits_of(none)[0].text == "none");
  CHECK(traits_of(none)[3].text == "none");
  CHECK(traits_of(TestBuilder().siblings(3, 0.004))[1].text == "sibling-panel");
}

TEST_CASE("line-up traits: stages beside the hail in words") {
  Protocol p = TestBuilder().build().protocol;
  p.stresses.push_back({});
  p.stresses[0].name = "sandbags";
  CHECK(stage_words(p, {StageKind::baseline, 0}) == "baseline");
  CHECK(stage_words(p, {StageKind::later, 0}) == "later");
  CHECK(stage_words(p, {StageKind::after_stress, 0}) == "after sandbags");
}
