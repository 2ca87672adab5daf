// The answers of a power result: looks and their risk, simple acceptance, what would settle an open
// limit, and where random trials disagree.
#include "support/catch.hpp"
#include "support/judged_power.hpp"
#include "support/test_builder.hpp"

using namespace hailwright;
using hailwright::testing::has;
using hailwright::testing::judged;
using hailwright::testing::note_of;
using hailwright::testing::TestBuilder;

// MEASUREMENT M6: with m planned looks each uses alpha/m, taken or not.
TEST_CASE("power: planned looks share the risk") {
  const auto alpha = [](int looks, std::optional<Ratio> risk, bool* assumed = nullptr) {
    TestBuilder b;
    b.test.protocol.decide.looks = looks;
    b.test.protocol.decide.risk = risk;
    Assumptions used;
    const PowerResult p = judged(b, &used);
    if (assumed != nullptr) *assumed = used.uses(DefaultId::risk);
    return p.estimate.alpha;
  };
  bool assumed = false;
  CHECK(alpha(1, std::nullopt, &assumed) == 0.025);
  CHECK(assumed);
  CHECK_THAT(alpha(3, std::nullopt), WithinRel(0.025 / 3.0, 1e-12));
  CHECK(alpha(2, percent(1), &assumed) == 0.005);
  CHECK_FALSE(assumed);
  // A drop that a single look calls real is not so for one of three: u of scatter 0.3 %, day 0.2 %
  // and stability 0.5 % is 0.61 %, its 97.5 % point 1.20 %, its 99.17 % point 1.47 %.
  TestBuilder b;
  b.loss(0.0135);
  CHECK(judged(b).is_real());
  b.test.protocol.decide.looks = 3;
  CHECK_FALSE(judged(b).is_real());
}

// MEASUREMENT M6: an extension after seeing the result is judged at alpha/(looks + 1) and marked.
TEST_CASE("power: more looks than planned divide the risk, and are told") {
  const auto seen = [](int planned, int taken) {
    TestBuilder b;
    b.test.protocol.decide.looks = planned;
    b.test.record.results_seen = taken;
    return judged(b);
  };
  const PowerResult second = seen(1, 2);
  CHECK(second.looks_counted == 2);
  CHECK(second.estimate.alpha == 0.0125);
  CHECK(note_of(second, PowerRemark::extended).numbers == std::vector<double>{2, 1, 0.0125});
  CHECK_THAT(seen(1, 3).estimate.alpha, WithinRel(0.025 / 3.0, 1e-12));
  const PowerResult planned = seen(3, 2);
  CHECK(planned.looks_counted == 3);
  CHECK_FALSE(has(planned, PowerRemark::extended));
  CHECK(weight_of(PowerRemark::extended) == RemarkWeight::warning);
}

TEST_CASE("power: set-ups beyond the plan that nobody explains are a warning") {
  TestBuilder b;
  b.setups(4, 6);
  b.test.protocol.measure.after = 4;
  CHECK(note_of(judged(b), PowerRemark::more_setups_than_planned).numbers ==
        std::vector<double>{6, 4});
  b.test.record.results_seen = 1;  // they were added before the result was seen
  CHECK_FALSE(has(judged(b), PowerRemark::more_setups_than_planned));
  b.test.record.results_seen.reset();
  b.test.protocol.measure.after = 6;
  CHECK_FALSE(has(judged(b), PowerRemark::more_setups_than_planned));
}

TEST_CASE("power: an undecided limit comes with what would settle it") {
  TestBuilder b;
  b.setups(10, 4).loss(0.0315).setup_scatter(0.016);
  b.test.protocol.measure.control_stability = percent(0.2);
  const PowerResult p = judged(b);
  REQUIRE(p.answers.beyond == Answer::undecided);
  REQUIRE(p.settling.has_value());
  CHECK_FALSE(p.settling->never);
  REQUIRE(p.settling->as_estimated.has_value());
  CHECK(p.settling->chance >= 0.80);
  CHECK(p.settling->alpha == 0.0125);
  CHECK_THAT(p.settling->margin.si(), WithinAbs(0.0185, 1e-12));
  // Nothing to settle where the limit is decided or no interval would answer.
  CHECK_FALSE(judged(TestBuilder().loss(0.01)).settling.has_value());
  CHECK_FALSE(judged(TestBuilder().setups(2, 2).loss(0.05)).settling.has_value());
  CHECK_FALSE(judged(TestBuilder().loss(-0.06)).settling.has_value());
}

// The last planned look stands for all of them when nobody says which one it is.
TEST_CASE("power: the look that would follow has its own risk") {
  const auto next = [](int planned, std::optional<int> seen) {
    TestBuilder b;
    b.loss(0.045);
    b.test.protocol.decide.looks = planned;
    b.test.record.results_seen = seen;
    return judged(b).settling.value().alpha;
  };
  CHECK(next(1, std::nullopt) == 0.0125);
  CHECK(next(1, 1) == 0.0125);
  CHECK_THAT(next(1, 2), WithinRel(0.025 / 3.0, 1e-12));
  CHECK_THAT(next(3, 1), WithinRel(0.025 / 3.0, 1e-12));
  CHECK_THAT(next(3, 3), WithinRel(0.025 / 4.0, 1e-12));
  CHECK_THAT(next(3, std::nullopt), WithinRel(0.025 / 4.0, 1e-12));
}

// MEASUREMENT M4: simple acceptance, if a protocol chooses it.
TEST_CASE("power: simple acceptance holds the estimate alone against the limit") {
  TestBuilder b;
  b.test.protocol.decide.simple = true;
  const PowerResult above = judged(b.loss(0.0501));
  CHECK(above.simple);
  CHECK(above.is_beyond());
  CHECK(above.is_real());
  CHECK_FALSE(above.settling.has_value());
  CHECK(judged(b.loss(0.0499)).is_within());
  const PowerResult small = judged(b.loss(0.005));
  CHECK(small.is_within());
  CHECK_FALSE(small.is_real());  // whether there is a drop is still for the interval
  const PowerResult gained = judged(b.loss(-0.06));
  CHECK_FALSE(gained.valid);
  CHECK(gained.answers.beyond == Answer::undecided);
  CHECK_FALSE(judged(b.loss(0.10).setups(2, 2)).is_beyond());
}

namespace {

/// One set-up a stage of three readings each: two scatters of two degrees of freedom, whose sum has
/// heavier tails than the t that Welch and Satterthwaite put in its place.
TestBuilder heavy_tails() {
  TestBuilder b;
  b.same_panel().setups(1, 1).rounds(3).loss(0.01);
  MeasurementPlan& m = b.test.protocol.measure;
  m.readings_independent = "triggered anew each time";
  m.setup_scatter = {{{}, "remounting", std::nullopt, percent(0.001)}};
  m.day = percent(0);
  m.stage = percent(0);
  b.test.protocol.tools.meter.between_stages = percent(0);
  b.test.protocol.tools.sun.between_stages = percent(0);
  return b;
}

PowerResult checked(const TestBuilder& b) {
  CheckPlan plan;
  plan.trials = 100'000;
  Assumptions assumptions;
  return judge_power(b.build(), {StageKind::after, 0}, assumptions, plan);
}

}  // namespace

// MEASUREMENT M7: first order decides, unless random trials would answer otherwise.
TEST_CASE("power: an answer that random trials would not give is open") {
  TestBuilder b = heavy_tails();
  const PowerResult wide = checked(b);
  REQUIRE(wide.check.has_value());
  CHECK_FALSE(wide.check->disagrees);
  CHECK_FALSE(has(wide, PowerRemark::methods_disagree));
  CHECK(wide.is_within());
  REQUIRE(wide.check->high.si() > wide.estimate.high().si() + 0.0003);
  // A limit between the two upper ends: within by the one, open by the other.
  b.test.protocol.decide.limit = (wide.estimate.high() + wide.check->high) / 2.0;
  CHECK(judged(b).is_within());
  const PowerResult open = checked(b);
  CHECK(open.check->disagrees);
  CHECK(open.answers.beyond == Answer::undecided);
  CHECK(note_of(open, PowerRemark::methods_disagree).numbers ==
        std::vector<double>{open.check->low.si(), open.check->high.si()});
  // Not for want of set-ups, and the rest of the result holds.
  CHECK_FALSE(open.settling.has_value());
  CHECK(open.decides);
  CHECK(open.valid);
  CHECK(open.answers.real == wide.answers.real);
  // By the estimate alone the limit does not hang on the interval.
  b.test.protocol.decide.simple = true;
  const PowerResult simple = checked(b);
  CHECK(simple.is_within());
  CHECK_FALSE(has(simple, PowerRemark::methods_disagree));
}
