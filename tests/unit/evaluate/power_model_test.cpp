#include "hailwright/evaluate/power_model.hpp"

#include <cmath>

#include "support/catch.hpp"
#include "support/test_builder.hpp"

using namespace hailwright;
using hailwright::testing::TestBuilder;

namespace {

constexpr PowerQuestion question(PowerQuestion::Of of) {
  return {{StageKind::before, 0}, {StageKind::after, 0}, of, false};
}

}  // namespace

TEST_CASE("model: swapping before and after flips the sign") {
  const Test t = TestBuilder().loss(0.07).build();
  Assumptions a;
  PowerQuestion q = question(PowerQuestion::Of::both);
  const double forward = build_power_model(t, q, ScatterSource::observed, a).model->lambda();
  std::swap(q.from, q.to);
  const double back = build_power_model(t, q, ScatterSource::observed, a).model->lambda();
  CHECK_THAT(forward, WithinAbs(-back, 1e-14));
}

TEST_CASE("model: a gain shared by all readings changes no comparison") {
  Test t = TestBuilder().loss(0.03).build();
  Assumptions a;
  const auto q = question(PowerQuestion::Of::struck);
  t.protocol.measure.compare = Comparison::same_panel;
  const double plain = build_power_model(t, q, ScatterSource::observed, a).model->lambda();
  for (Reading& r : t.record.readings)
    r.power = r.power * 1.08;
  CHECK_THAT(build_power_model(t, q, ScatterSource::observed, a).model->lambda(),
             WithinAbs(plain, 1e-12));
}

TEST_CASE("model: irradiance drops out of panels read together") {
  Test t = TestBuilder().loss(0.03).build();
  Assumptions a;
  const auto q = question(PowerQuestion::Of::both);
  const double steady = build_power_model(t, q, ScatterSource::observed, a).model->lambda();
  for (Reading& r : t.record.readings) {
    const double cloud = 1.0 - 0.05 * *r.round;
    r.irradiance = r.irradiance * cloud;
    r.power = r.power * cloud;
  }
  // Only the cell-over-back difference still sees it.
  CHECK_THAT(build_power_model(t, q, ScatterSource::observed, a).model->lambda(),
             WithinAbs(steady, 1e-4));
}

TEST_CASE("model: obstacles are named") {
  Assumptions a;
  const auto q = question(PowerQuestion::Of::both);
  CHECK(build_power_model(TestBuilder().no_final_stage().build(), q, ScatterSource::observed, a)
            .obstacle == PowerObstacle::no_reading_after);
  CHECK(build_power_model(TestBuilder().setups(1, 1).build(), q, ScatterSource::observed, a)
            .obstacle == PowerObstacle::no_replication);
  TestBuilder one_reading;
  one_reading.setups(1, 1).rounds(1);
  one_reading.test.protocol.measure.setup_scatter = {
      {{}, "remounting", std::nullopt, percent(0.3)}};
  CHECK(build_power_model(one_reading.build(), q, ScatterSource::stated, a).obstacle ==
        PowerObstacle::one_reading);
  Test none = TestBuilder().build();
  none.record.readings.clear();
  CHECK(build_power_model(none, q, ScatterSource::observed, a).obstacle ==
        PowerObstacle::no_reading_before);
}

TEST_CASE("model: the power before carries the instruments alone") {
  const Test t = TestBuilder().build();
  const auto p = reference_power(t, {StageKind::before, 0});
  REQUIRE(p.has_value());
  CHECK(p->power.si() > 90.0);
  // Wide defaults: 10 % sun meter, 5 % power meter, rectangular, and smaller ones.
  CHECK(p->relative_u.si() > std::hypot(0.10, 0.05) / std::sqrt(3.0));
  CHECK(p->relative_u.si() < 0.09);
}

TEST_CASE("power model: a drift was taken out in any of the blocks") {
  SetupValue drifting{};
  drifting.drift_per_hour = 0.001;
  PowerModel m;
  m.from = m.to = m.baseline = {SetupValue{}};
  CHECK_FALSE(m.drift_taken_out());
  for (auto block : {&PowerModel::from, &PowerModel::to, &PowerModel::baseline}) {
    PowerModel one = m;
    (one.*block).push_back(drifting);
    CHECK(one.drift_taken_out());
  }
}
