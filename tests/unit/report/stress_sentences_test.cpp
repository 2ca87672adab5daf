#include "report/stress_sentences.hpp"

#include <algorithm>

#include "support/catch.hpp"
#include "support/stress_examples.hpp"

using namespace hailwright;
using Catch::Matchers::EndsWith;
using Catch::Matchers::StartsWith;

namespace {

StressQuantity pressure(StressSide side) {
  StressQuantity q;
  q.reached.label = "pressure";
  q.reached.unit = "Pa";
  q.reached.planned = 2400.0;
  q.reached.done = {Ratio::from_si(2451.4), Ratio::from_si(60.0)};
  q.reached.tolerance = 0.05;
  q.counts_from = 2280.0;
  q.low = 2333.8;
  q.high = 2569.0;
  q.chance_not_weaker = 0.871;
  q.side = side;
  return q;
}

}  // namespace

TEST_CASE("stress_sentences: a quantity with its ends and what it counts from") {
  CHECK(stress_quantity_sentence(pressure(StressSide::not_weaker)) ==
        "pressure: 2451 Pa (95 %: 2334 to 2569 Pa), planned 2400 Pa, counts from 2280 Pa: at least "
        "as strong as that");
  CHECK_THAT(stress_quantity_sentence(pressure(StressSide::weaker)), EndsWith(": weaker"));
  CHECK_THAT(stress_quantity_sentence(pressure(StressSide::cannot_tell)),
             EndsWith("not shown to be strong enough (87 % sure)"));
}

TEST_CASE("stress_sentences: a count has no ends, a yes or no no number, what was taken is said") {
  StressQuantity count;
  count.reached.label = "times";
  count.reached.planned = 25.0;
  count.reached.done.value = Ratio::from_si(25.0);
  count.counts_from = count.low = count.high = 25.0;
  count.side = StressSide::not_weaker;
  CHECK(stress_quantity_sentence(count) == "times: 25, planned 25: at least as strong as that");
  count.reached.label = "pulled as planned";
  count.reached.yes_no = true;
  count.reached.done.value = Ratio::from_si(0.0);
  CHECK(stress_quantity_sentence(count) == "pulled as planned: no");
  StressQuantity taken = pressure(StressSide::not_weaker);
  taken.reached.taken = "scale to 2 % [ours]";
  CHECK_THAT(stress_quantity_sentence(taken), EndsWith(". Taken: scale to 2 % [ours]"));
}

TEST_CASE("stress_sentences: values as typed, those of a level in the unit of the key") {
  const StressKind& kind = *find_stress_kind("static load");
  const StressValues typed = hailwright::testing::planned_values(
      kind, {{"pressure", "2.4 kPa"}, {"face", "back"}, {"times", "3"}});
  CHECK(stress_value_lines(kind.planned, typed) ==
        std::vector<std::string>{"pressure: 2.4 kPa", "times: 3", "face: back"});
  const StressKey& held = *std::find_if(kind.planned.begin(), kind.planned.end(),
                                        [](const StressKey& k) { return k.key == "held"; });
  CHECK(stress_value_text(held, {3600.0, 0.0, "a level", {}}) == "60 min");
}

TEST_CASE("stress_sentences: a stress by its level, or by its amounts, and by its name") {
  const StressKind& kind = *find_stress_kind("cable pull");
  StressPlan plan;
  plan.kind = &kind;
  plan.name = "cable pull";
  plan.values = hailwright::testing::planned_values(kind, {{"force", "40 N"}, {"held", "60 s"}});
  CHECK(stress_text(plan) == "cable pull with force: 40 N, held: 60 s");
  plan.level = find_stress_level(kind, "UL 89 N");
  plan.name = "pull";
  CHECK(stress_text(plan) == "cable pull at the nominal UL 89 N figures (pull)");
}

TEST_CASE("stress_sentences: what it is not is said of every kind") {
  for (const StressKind& kind : stress_kinds())
    CHECK_THAT(not_equivalent_sentence(kind), StartsWith("not equivalent to "));
}

TEST_CASE("stress_sentences: planned and not done is told") {
  Test test;
  StressPlan plan;
  plan.kind = find_stress_kind("spray");
  plan.name = "hose";
  test.protocol.stresses.push_back(plan);
  CHECK(stress_headlines(test, Assessment{}) ==
        std::vector<std::string>{"Planned and not done: hose."});
  CHECK(stress_headlines(Test{}, Assessment{}).empty());
}
