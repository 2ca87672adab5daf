#include "report/plan_sentences.hpp"

#include "support/catch.hpp"
#include "support/test_builder.hpp"

using namespace hailwright;

TEST_CASE("plan_sentences: what a kept plan shows") {
  Test test = hailwright::testing::TestBuilder().build();
  test.record.date = "2026-06-14";
  test.protocol.mark = {{"7f3a", "9c01", "52de", "0b44"}};
  test.record.planned = std::nullopt;
  CHECK(plan_kept_sentence(test) ==
        "nothing was kept that shows that the rules were set before the test");
  test.record.planned = PlannedLine{"2026-06-10", test.protocol.mark};
  CHECK(plan_kept_sentence(test) == "protocol unchanged since 2026-06-10 (7f3a-9c01-52de-0b44)");
  test.record.planned->mark.parts = {"0000", "9c01", "52de", "1111"};
  CHECK(plan_kept_sentence(test) ==
        "protocol changed since 2026-06-10: the decision rule and launcher, ice or safety answers");
  test.record.planned->date = "2026-06-15";
  CHECK(plan_kept_sentence(test) ==
        "dated 2026-06-15, after the test: it does not show that the rules were set before");
}
