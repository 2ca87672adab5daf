// MEASUREMENT M1 and M5: what no number of set-ups takes away, and what no hail can do. How often
// the intervals hold the true loss is simulated by tests/honesty.
#include <algorithm>
#include <cmath>

#include "hailwright/evaluate/assessment.hpp"
#include "support/catch.hpp"
#include "support/test_builder.hpp"

using namespace hailwright;
using hailwright::testing::TestBuilder;

namespace {

PowerResult judged_after(const TestBuilder& builder) {
  Assumptions assumptions;
  return judge_power(builder.build(), {StageKind::after, 0}, assumptions);
}

}  // namespace

// MEASUREMENT M1: silence about the day is not zero, and no number of set-ups makes it so.
TEST_CASE("eight set-ups on one day without a stated day take the wide default and list it") {
  const Assessment a = assess(TestBuilder().same_panel().setups(8, 8).build());
  const auto day = std::find_if(a.assumed.begin(), a.assumed.end(), [](const AssumedEffect& e) {
    return e.id == DefaultId::day_same_panel;
  });
  REQUIRE(day != a.assumed.end());
  CHECK_THAT(day->on_loss->points(), WithinAbs(std::sqrt(2.0) * 1.0, 0.01));
  CHECK(a.power.at(0).estimate.u_lambda > std::sqrt(2.0) * 0.01);
}

TEST_CASE("more set-ups never bring u below the stated day and stage") {
  TestBuilder b;
  b.same_panel();
  b.test.protocol.measure.day = percent(0.4);
  b.test.protocol.measure.stage = percent(0.3);
  const double floor = std::hypot(std::sqrt(2.0) * 0.004, 0.003);
  double last = 1.0;
  for (const int setups : {2, 4, 8, 16, 32, 64}) {
    const PowerResult p = judged_after(b.setups(setups, setups));
    CAPTURE(setups);
    CHECK(p.estimate.u_lambda < last);
    CHECK(p.estimate.u_lambda > floor);
    last = p.estimate.u_lambda;
  }
}

// MEASUREMENT M5: hail adds no power.
TEST_CASE("a loss of minus 6 per cent with 1 per cent is not valid") {
  TestBuilder b;
  b.same_panel().setups(4, 4).rounds(1).setup_scatter(0.0133).loss(-0.06);
  b.test.protocol.tools.meter.between_stages = percent(0);
  b.test.protocol.tools.sun.between_stages = percent(0);
  b.test.protocol.measure.day = percent(0);
  b.test.protocol.measure.stage = percent(0);
  const PowerResult p = judged_after(b);
  CHECK_THAT(p.estimate.loss().si(), WithinAbs(-0.06, 1e-9));
  CHECK_THAT(p.estimate.u_loss().si(), WithinAbs(0.01, 2e-4));
  CHECK(p.estimate.high() < Ratio{});
  CHECK_FALSE(p.valid);
  CHECK_FALSE(p.is_within());
}
