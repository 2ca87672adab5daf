// What bears on the word of a series beside the lines of assess_test.cpp: earlier damage, looks
// that came later, readings taken again, and what was assumed (MEASUREMENT M6, M11).
#include <algorithm>

#include "hailwright/evaluate/assessment.hpp"
#include "support/catch.hpp"
#include "support/test_builder.hpp"

using namespace hailwright;
using hailwright::testing::seen;
using hailwright::testing::TestBuilder;

namespace {

struct Reasoned {
  explicit Reasoned(const TestBuilder& builder) : test(builder.build()), a(assess(test)) {}
  Test test;
  Assessment a;

  [[nodiscard]] bool says(std::size_t series, Reason reason) const {
    const auto& reasons = a.verdicts.at(series).reasons;
    return std::any_of(reasons.begin(), reasons.end(),
                       [&](const SeriesReason& r) { return r.reason == reason; });
  }
  [[nodiscard]] Word word(std::size_t series) const { return a.verdicts.at(series).word; }
};

const AssumedEffect* effect_of(const Assessment& a, DefaultId id) {
  const auto found = std::find_if(a.assumed.begin(), a.assumed.end(),
                                  [&](const AssumedEffect& e) { return e.id == id; });
  return found == a.assumed.end() ? nullptr : &*found;
}

}  // namespace

TEST_CASE("two stages at one point: the later written is not asked where the first shows damage") {
  const Reasoned r{TestBuilder().second_series().stage_after(1, 0.3).loss(0.0)};
  CHECK(r.word(1) == Word::damaged);
  CHECK(r.a.verdicts[1].power == 0U);
}

TEST_CASE("a loss that was there before a series is not its damage") {
  TestBuilder b;
  b.second_series().stage_after(0, 0.3).loss(0.3);
  const Reasoned r{b};
  CHECK(r.word(0) == Word::damaged);
  CHECK(r.word(1) == Word::undecided);
  CHECK(r.says(1, Reason::damaged_before));
  CHECK_FALSE(r.says(1, Reason::power_beyond));
  CHECK_FALSE(r.says(1, Reason::with_a_stress));
  b.test.record.shots.pop_back();
  const Reasoned missing{b};
  CHECK(missing.word(1) == Word::not_reached);
  CHECK_FALSE(missing.says(1, Reason::nothing_struck));
}

TEST_CASE("what a later look left open does not bear on the series before it") {
  TestBuilder b;
  b.second_series().look(1, {seen("cell crack", "cell 4")});
  const Reasoned r{b};
  CHECK(r.word(0) == Word::withstood);
  CHECK(r.word(1) == Word::undecided);
  CHECK(r.says(1, Reason::cell_share_not_stated));
}

TEST_CASE("readings taken again after seeing the result are said beside the word") {
  TestBuilder b;
  b.test.record.results_seen = 3;
  CHECK(Reasoned{b}.says(0, Reason::extended));
  b.test.protocol.decide.looks = 3;
  CHECK_FALSE(Reasoned{b}.says(0, Reason::extended));
  b.test.protocol.decide.looks = 1;
  b.test.protocol.decide.judges_power = false;
  CHECK_FALSE(Reasoned{b}.says(0, Reason::extended));
}

TEST_CASE("what an assumption adds to the loss is told where there is a loss") {
  TestBuilder b;
  b.test.protocol.series[0].place_radius.reset();
  const Reasoned r{b};
  REQUIRE(effect_of(r.a, DefaultId::place_size) != nullptr);
  CHECK_FALSE(effect_of(r.a, DefaultId::place_size)->on_loss.has_value());
  REQUIRE(effect_of(r.a, DefaultId::control_stability) != nullptr);
  CHECK(effect_of(r.a, DefaultId::control_stability)->on_loss.has_value());
}

TEST_CASE("an assumption adds nothing to a loss that was not estimated") {
  TestBuilder b;
  b.test.protocol.measure.redone.reset();
  const Reasoned r{b};
  REQUIRE_FALSE(r.a.power.at(0).estimated());
  for (const AssumedEffect& effect : r.a.assumed)
    CHECK_FALSE(effect.on_loss.has_value());
  CHECK(r.says(0, Reason::power_obstacle));
}

TEST_CASE("an assumption is weighed by the stages that were estimated") {
  Test t = TestBuilder().stage_after(0, 0.0).build();
  const std::size_t last = t.record.setups.size() - 1;
  std::erase_if(t.record.readings,
                [&](const Reading& r) { return r.setup == last && r.role == Role::control; });
  const Assessment a = assess(t);
  REQUIRE(a.power.size() == 2);
  CHECK(a.power[0].estimated());
  CHECK(a.power[1].obstacle == PowerObstacle::no_control_pair);
  CHECK(effect_of(a, DefaultId::control_stability)->on_loss.has_value());
}
