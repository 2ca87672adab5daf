#include "evaluate/stress_power.hpp"

#include "support/catch.hpp"
#include "support/stress_examples.hpp"
#include "support/test_builder.hpp"

using namespace hailwright;
using namespace hailwright::testing;

namespace {

/// So many stresses after the hail.
TestBuilder stressed(std::size_t stresses) {
  TestBuilder b;
  for (std::size_t i = 0; i < stresses; ++i) {
    b.test.protocol.stresses.push_back(planned_by_examples(stress_kinds().front()));
    StressDone done;
    done.stress = i;
    done.after_hail = true;
    b.test.record.stresses.push_back(done);
  }
  return b;
}

std::vector<PowerResult> judged(const TestBuilder& builder) {
  Assumptions assumptions;
  const Test test = builder.build();
  return judge_stress_power(test, assumptions, std::nullopt, Extent::whole);
}

}  // namespace

TEST_CASE("stress power: each stress by the stages around it") {
  const auto power = judged(stressed(2).stage_after_stress(0, 0.01).stage_after_stress(1, 0.04));
  REQUIRE(power.size() == 2);
  CHECK(power[0].from == StageId{StageKind::after, 0});
  CHECK(power[0].stage == StageId{StageKind::after_stress, 0});
  CHECK_THAT(power[0].estimate.loss().si(), WithinAbs(0.01, 1e-9));
  CHECK(power[1].from == StageId{StageKind::after_stress, 0});
  CHECK_THAT(power[1].estimate.loss().si(), WithinAbs(1.0 - 0.96 / 0.99, 1e-9));
}

TEST_CASE("stress power: stresses without a stage between share one comparison") {
  const auto power = judged(stressed(2).stage_after_stress(1, 0.04));
  REQUIRE(power.size() == 1);
  CHECK(power[0].from == StageId{StageKind::after, 0});
  CHECK_THAT(power[0].estimate.loss().si(), WithinAbs(0.04, 1e-9));
}

TEST_CASE("stress power: a stress without a stage after it has no answer") {
  CHECK(judged(stressed(1)).empty());
  CHECK(judged(TestBuilder()).empty());
}

TEST_CASE("stress power: instruments that nobody called the same differ between two stages after") {
  TestBuilder said = stressed(1);
  said.same_panel().stage_after_stress(0, 0.0);
  said.test.record.conditions.same_tools = true;
  TestBuilder unsaid = said;
  unsaid.test.record.conditions.same_tools.reset();
  const auto u = [](const TestBuilder& b) { return judged(b).at(0).estimate.u_lambda; };
  CHECK(u(unsaid) > 1.5 * u(said));
}
