// MEASUREMENT M1: what set-ups, days and stages share.
#include "evaluate/shared_inputs.hpp"

#include <algorithm>
#include <cmath>

#include "support/catch.hpp"
#include "support/test_builder.hpp"

using namespace hailwright;
using hailwright::testing::TestBuilder;

namespace {

PowerModel model_of(const Test& t, PowerQuestion::Of of, ScatterSource source, Assumptions& used) {
  const bool siblings = of == PowerQuestion::Of::siblings;
  const StageId after{StageKind::after, 0};
  auto built = build_power_model(t, {siblings ? after : StageId{}, after, of}, source, used);
  REQUIRE(built.model.has_value());
  return std::move(*built.model);
}

double u_of(const PowerModel& m, const std::string& begin) {
  double variance = 0.0;
  for (const BudgetRow& row : m.budget()) {
    if (row.input.id.starts_with(begin)) variance += row.contribution() * row.contribution();
  }
  return std::sqrt(variance);
}

constexpr auto observed = ScatterSource::observed;
constexpr auto stated = ScatterSource::stated;
constexpr auto struck = PowerQuestion::Of::struck;
constexpr auto both = PowerQuestion::Of::both;
constexpr auto siblings = PowerQuestion::Of::siblings;

}  // namespace

// Issue check: eight set-ups on one day a stage and no `day` take the wide default and list it.
TEST_CASE("shared: set-ups of one day take its sky, stated or the wide default") {
  TestBuilder b;
  b.same_panel().setups(8, 8);
  Assumptions used;
  const PowerModel m = model_of(b.build(), struck, observed, used);
  CHECK(used.uses(DefaultId::day_same_panel));
  CHECK(used.uses(DefaultId::stage_same_panel));
  CHECK_THAT(u_of(m, "day/"), WithinRel(0.01 * std::sqrt(2.0), 1e-9));
  CHECK_THAT(u_of(m, "stage"), WithinRel(0.005, 1e-9));
  b.test.protocol.measure.day = percent(0.4);
  b.test.protocol.measure.stage = percent(0);
  Assumptions none;
  const PowerModel told = model_of(b.build(), struck, observed, none);
  CHECK_FALSE(none.uses(DefaultId::day_same_panel));
  CHECK_FALSE(none.uses(DefaultId::stage_same_panel));
  CHECK_THAT(u_of(told, "day/"), WithinRel(0.004 * std::sqrt(2.0), 1e-9));
  CHECK(u_of(told, "stage") == 0.0);
}

TEST_CASE("shared: a control takes its own default for day and drift") {
  Assumptions used;
  const PowerModel m = model_of(TestBuilder().build(), both, observed, used);
  CHECK(used.uses(DefaultId::day_control_panel));
  CHECK(used.uses(DefaultId::control_stability));
  CHECK_FALSE(used.uses(DefaultId::day_same_panel));
  CHECK_THAT(u_of(m, "day/"), WithinRel(0.002 * std::sqrt(2.0), 1e-9));
  CHECK_THAT(u_of(m, "stage"), WithinRel(0.005, 1e-9));
}

TEST_CASE("shared: a step that was not redone is drawn once a stage") {
  TestBuilder b;
  b.test.protocol.measure.redone = std::vector<Redone>{Redone::mount, Redone::probe, Redone::leads};
  b.test.protocol.measure.setup_scatter = {{{}, "aim", std::nullopt, percent(0.3)},
                                           {{}, "mount", std::nullopt, percent(0.2)}};
  Assumptions used;
  const PowerModel m = model_of(b.build(), both, observed, used);
  CHECK_THAT(u_of(m, "setup/aim"), WithinRel(0.003 * std::sqrt(2.0), 1e-9));
  CHECK(u_of(m, "setup/mount") == 0.0);  // the observed scatter holds it
}

TEST_CASE("shared: siblings of one date keep what a day makes of each panel, not its sky") {
  Assumptions used;
  const PowerModel m = model_of(TestBuilder().siblings(3, 0.01).build(), siblings, observed, used);
  CHECK(used.uses(DefaultId::day_control_panel));
  CHECK_FALSE(used.uses(DefaultId::day_same_panel));
  CHECK_THAT(u_of(m, "day/pair"), WithinRel(0.002, 1e-9));
  CHECK(u_of(m, "sky") == 0.0);
  CHECK(u_of(m, "stage") == 0.0);
}

TEST_CASE("shared: siblings of other dates than the struck panel bring the sky in") {
  TestBuilder b;
  b.siblings(3, 0.01).setups(2, 2);
  Test t = b.build();
  // The struck panel alone on the second day, its siblings on the first.
  t.record.setups[1].date = "2026-06-15";
  std::erase_if(t.record.readings,
                [](const Reading& r) { return (r.setup == 0) == (r.role == Role::struck); });
  Assumptions used;
  const PowerModel m = model_of(t, siblings, observed, used);
  CHECK(used.uses(DefaultId::day_same_panel));
  CHECK_THAT(u_of(m, "sky"), WithinRel(0.01 * std::sqrt(2.0), 1e-9));
}

TEST_CASE("shared: units with days of their own hold the days in their spread") {
  TestBuilder b;
  b.siblings(3, 0.01).setups(4, 4);
  Test t = b.build();
  for (std::size_t i = 0; i < 4; ++i)
    t.record.setups[i].date = "2026-06-1" + std::to_string(i);
  std::erase_if(t.record.readings, [](const Reading& r) {
    return r.setup != (r.role == Role::struck ? 0 : r.unit + 1);
  });
  Assumptions used;
  const PowerModel m = model_of(t, siblings, observed, used);
  CHECK(u_of(m, "sky") == 0.0);
  CHECK(u_of(m, "day") == 0.0);
  CHECK_FALSE(used.uses(DefaultId::day_control_panel));
}

TEST_CASE("shared: the maker's tolerance is one error a unit") {
  TestBuilder b;
  b.siblings(2, 0.01).setups(1, 1);
  b.test.protocol.measure.unit_tolerance = percent(3);
  b.test.protocol.measure.setup_scatter = {{{}, "remounting", std::nullopt, percent(0.2)}};
  Assumptions used;
  const PowerModel m = model_of(b.build(), siblings, stated, used);
  const double one = 0.03 / std::sqrt(3.0);
  CHECK_THAT(u_of(m, "unit/struck"), WithinRel(one, 1e-9));
  CHECK_THAT(u_of(m, "unit/U1"), WithinRel(one / 2.0, 1e-9));
  CHECK_THAT(u_of(m, "unit/"), WithinRel(one * std::sqrt(1.5), 1e-9));
  CHECK_THAT(u_of(m, "setup/"), WithinRel(0.002, 1e-9));  // one draw for panels set up together
}

TEST_CASE("shared: the protocol's day is for its own comparison, not for the control alone") {
  TestBuilder b;
  b.test.protocol.measure.day = percent(0.4);
  Assumptions used;
  const PowerModel control = model_of(b.build(), PowerQuestion::Of::control, observed, used);
  CHECK_THAT(u_of(control, "day/"), WithinRel(0.01 * std::sqrt(2.0), 1e-9));
  CHECK_THAT(u_of(model_of(b.build(), both, observed, used), "day/"),
             WithinRel(0.004 * std::sqrt(2.0), 1e-9));
}

TEST_CASE("shared: a stated day is what the sky makes of struck against unstruck") {
  TestBuilder b;
  b.siblings(3, 0.01);
  b.test.protocol.measure.day = percent(0.3);
  Assumptions used;
  const PowerModel m = model_of(b.build(), siblings, observed, used);
  CHECK_THAT(u_of(m, "day/pair"), WithinRel(0.003, 1e-9));
  CHECK_FALSE(used.uses(DefaultId::day_control_panel));
}
