#include "report/judgement_pattern.hpp"

#include "support/catch.hpp"
#include "support/curve_readings.hpp"

using namespace hailwright;
using namespace hailwright::testing;

TEST_CASE("judgement_pattern: nothing without figures of the curve") {
  CHECK(pattern_facts(test_for_curves(), Assessment{}, SourceSet{}).items.empty());
}

TEST_CASE("judgement_pattern: facts in the order of reading") {
  Test test = test_for_curves();
  test.record.curves = drawn_curves(CurvePattern::series_resistance, 0.3, 2);
  Assessment a;
  a.pattern = find_loss_pattern(test);
  const Facts facts = pattern_facts(test, a, SourceSet{});
  std::vector<std::string> labels;
  for (const Fact& fact : facts.items)
    labels.push_back(fact.label);
  CHECK(labels == std::vector<std::string>{"change of the curve", "pattern", "maximum power",
                                           "voltage alone", "rests on"});
  CHECK(facts.items[0].lines.size() == 5);
}
