#include "evaluate/setup_units.hpp"

#include <cmath>

#include "hailwright/core/contract.hpp"
#include "support/catch.hpp"
#include "support/test_builder.hpp"

using namespace hailwright;
using hailwright::testing::TestBuilder;

namespace {

constexpr PanelOf struck{Role::struck, 0};
constexpr PanelOf control{Role::control, 0};

PowerQuestion asked(PowerQuestion::Of of) {
  return {{StageKind::before, 0}, {StageKind::after, 0}, of};
}
const PowerQuestion both = asked(PowerQuestion::Of::both);

/// One set-up of two panels that differ by `step`, read in this order a minute apart, while the
/// instruments drift by so much a minute.
Test read_in_order(const std::string& order, double step, double drift) {
  TestBuilder b;
  b.test.protocol.measure.meters = 1;
  Test t = b.build();
  t.record.setups.resize(1);
  t.record.readings.clear();
  for (std::size_t i = 0; i < order.size(); ++i) {
    Reading r;
    r.role = order[i] == 'B' ? Role::struck : Role::control;
    r.minute = 600 + static_cast<int>(i);
    r.irradiance = Irradiance::from_si(900.0);
    r.temperature = TemperaturePoint::from_celsius(45.0);
    r.power = Power::from_si(
        80.0 * std::exp((order[i] == 'B' ? step : 0.0) + drift * static_cast<double>(i)));
    t.record.readings.push_back(r);
  }
  return t;
}

UnitSetup only_setup(const Test& t) {
  return make_unit(t, 0, {struck, control}, {1.0, -1.0},
                   complete_rounds(t, both, 0, {struck, control}));
}

double weight_of(const UnitSetup& unit, Role role) {
  double sum = 0.0;
  for (const WeighedReading& r : unit.readings)
    sum += r.reading->role == role ? r.weight : 0.0;
  return sum;
}

}  // namespace

// MEASUREMENT M8: a steady drift between panels read in turn cancels, whatever the order.
TEST_CASE("set-ups: a steady drift cancels between panels read in turn") {
  for (const char* order : {"ABBA", "ABAB", "AABB", "ABBABAAB", "AAAABBBB", "BABAAB"}) {
    CAPTURE(order);
    const Test t = read_in_order(order, -0.02, 0.003);  // the unit points into it
    const UnitSetup unit = only_setup(t);
    CHECK_THAT(unit.value, WithinAbs(-0.02, 1e-12));
    REQUIRE(unit.drift_per_hour.has_value());
    CHECK_THAT(*unit.drift_per_hour, WithinAbs(0.18, 1e-9));
    CHECK(unit.reading_dof == static_cast<double>(std::string(order).size()) - 3.0);
    CHECK_THAT(*unit.reading_sd, WithinAbs(0.0, 1e-12));
    CHECK_THAT(weight_of(unit, Role::struck), WithinAbs(1.0, 1e-12));
    CHECK_THAT(weight_of(unit, Role::control), WithinAbs(-1.0, 1e-12));
  }
}

TEST_CASE("set-ups: two meters, or too few readings, leave the plain mean of the rounds") {
  Test t = read_in_order("ABAB", -0.02, 0.003);
  t.protocol.measure.meters = 2;
  const UnitSetup at_once = only_setup(t);
  CHECK_THAT(at_once.value, WithinAbs(-0.02 + 0.003, 1e-12));
  CHECK_FALSE(at_once.drift_per_hour.has_value());
  CHECK(at_once.reading_dof == 1.0);
  CHECK_THAT(only_setup(read_in_order("ABA", -0.02, 0.003)).value, WithinAbs(-0.017, 1e-12));
  CHECK_FALSE(only_setup(read_in_order("AB", -0.02, 0.003)).reading_sd.has_value());
}

TEST_CASE("set-ups: without times the order of the rows tells, unless rounds are given") {
  Test t = read_in_order("ABAB", -0.02, 0.003);
  for (Reading& r : t.record.readings)
    r.minute.reset();
  const UnitSetup by_rows = only_setup(t);
  CHECK_THAT(by_rows.value, WithinAbs(-0.02, 1e-12));
  CHECK_FALSE(by_rows.drift_per_hour.has_value());  // of hours nothing is known
  CHECK(by_rows.reading_dof == 1.0);
  // Readings of one round without times are taken as read at once.
  for (std::size_t i = 0; i < t.record.readings.size(); ++i)
    t.record.readings[i].round = static_cast<int>(i / 2) + 1;
  CHECK_THAT(only_setup(t).value, WithinAbs(-0.017, 1e-12));
}

TEST_CASE("set-ups: times that tell no drift from a difference leave the plain mean") {
  Test t = read_in_order("AABB", -0.02, 0.0);
  for (Reading& r : t.record.readings)
    r.minute = r.role == Role::struck ? 700 : 600;
  const UnitSetup unit = only_setup(t);
  CHECK_THAT(unit.value, WithinAbs(-0.02, 1e-12));
  CHECK_FALSE(unit.drift_per_hour.has_value());
}

// A row that does not count took its time all the same.
TEST_CASE("set-ups: skipped rows keep their place in the order") {
  Test t = read_in_order("ABXABAB", -0.02, 0.003);
  for (Reading& r : t.record.readings)
    r.minute.reset();
  t.record.readings[2].skip = "cloud";
  t.record.readings[2].role = Role::sibling;
  t.record.siblings.push_back({{}, "X"});
  CHECK_THAT(only_setup(t).value, WithinAbs(-0.02, 1e-12));
}

TEST_CASE("set-ups: scatter of the readings, about the drift where one was taken out") {
  Test t = read_in_order("ABBAABBA", -0.02, 0.001);
  // +e and -e in turn on the struck panel: nothing for the mean, 4 e^2 over 8 - 3.
  int struck_read = 0;
  for (Reading& r : t.record.readings) {
    if (r.role != Role::struck) continue;
    r.power = r.power * std::exp(++struck_read % 2 == 0 ? 0.001 : -0.001);
  }
  const UnitSetup unit = only_setup(t);
  CHECK(unit.reading_dof == 5.0);
  // The times of +e and -e differ by one minute in all, so that a little of it goes to the drift.
  CHECK_THAT(*unit.reading_sd, WithinRel(std::sqrt(4e-6 / 5.0), 0.05));
  CHECK_THAT(unit.reading_share, WithinRel(std::sqrt(1.0 / 4.0 + 1.0 / 4.0), 1e-12));
  // Eight readings in four rounds: independent, or worth one round (M2).
  CHECK_THAT(reading_u(unit, true), WithinRel(*unit.reading_sd * std::sqrt(0.5), 1e-12));
  CHECK_THAT(reading_u(unit, false), WithinRel(*unit.reading_sd * std::sqrt(2.0), 1e-12));
}

TEST_CASE("set-ups: rounds pair the k-th readings of both panels, skipped ones counted") {
  Test t = TestBuilder().setups(1, 1).build();
  for (Reading& r : t.record.readings)
    r.round.reset();
  // The second struck reading of the first set-up falls to a cloud: its partner falls with it.
  int struck_ones = 0;
  for (Reading& r : t.record.readings) {
    if (r.setup == 0 && r.role == Role::struck && ++struck_ones == 2) r.skip = "cloud";
  }
  const StageBlocks blocks = collect_stage_blocks(t, both);
  REQUIRE(blocks.from.size() == 1);
  REQUIRE(blocks.from[0].rounds.size() == 2);
  const Round& second = blocks.from[0].rounds[1];
  CHECK(second[0]->irradiance == second[1]->irradiance);
}

TEST_CASE("set-ups: one without a complete round is named") {
  Test t = TestBuilder().setups(1, 1).build();
  for (Reading& r : t.record.readings) {
    if (r.setup == 1 && r.role == Role::control) r.skip = "cloud";
  }
  CHECK(collect_stage_blocks(t, both).unpaired == "after 1");
}

TEST_CASE("set-ups: readings of one set-up count as one unless a reason is given") {
  const std::vector<double> few(5, 1.0);
  CHECK(effective_readings(few, false) == 1.0);
  CHECK(effective_readings(few, true) == 5.0);
  std::vector<double> many;
  for (int i = 0; i < 24; ++i)
    many.push_back(i % 2 == 0 ? 1.0 : -1.0);
  CHECK(effective_readings(many, false) == 24.0);  // no positive autocorrelation
  std::vector<double> slow;
  for (int i = 0; i < 24; ++i)
    slow.push_back(i < 12 ? 1.0 : -1.0);
  CHECK(effective_readings(slow, false) < 3.0);
  CHECK(effective_readings(std::vector<double>(slow.begin() + 2, slow.begin() + 21), false) == 1.0);
}

TEST_CASE("set-ups: readings left out take their round with them") {
  const Test t = TestBuilder().setups(1, 1).build();
  PowerQuestion q = both;
  q.leave_out = {3};  // the control of the second round
  CHECK(t.record.readings[3].role == Role::control);
  const StageBlocks blocks = collect_stage_blocks(t, q);
  CHECK(blocks.from[0].rounds.size() == 2);
  CHECK(blocks.to[0].rounds.size() == 3);
  q.leave_out = {0, 2, 4};
  CHECK(collect_stage_blocks(t, q).unpaired == "before 1");
  q.of = PowerQuestion::Of::struck;
  CHECK(collect_stage_blocks(t, q).from.empty());
}

TEST_CASE("set-ups: unequal numbers and missing readings") {
  Test t = TestBuilder().setups(3, 2).build();
  std::erase_if(t.record.readings, [](const Reading& r) {
    return r.setup == 1 && r.role == Role::control && r.round == 3;
  });
  const StageBlocks blocks = collect_stage_blocks(t, both);
  REQUIRE(blocks.from.size() == 3);
  CHECK(blocks.from[0].rounds.size() == 3);
  CHECK(blocks.from[1].rounds.size() == 2);
  CHECK(stage_weights(blocks.from, false) == std::vector<double>(3, 1.0 / 3.0));
  const StageBlocks alone = collect_stage_blocks(t, asked(PowerQuestion::Of::struck));
  CHECK(alone.from[1].rounds.size() == 3);  // the struck panel alone misses nothing
}

TEST_CASE("set-ups: days weigh alike, however many set-ups they have") {
  Test t = TestBuilder().setups(3, 2).build();
  t.record.setups[2].date = "2026-06-15";
  const StageBlocks blocks = collect_stage_blocks(t, both);
  CHECK(stage_weights(blocks.from, true) == std::vector<double>{0.25, 0.25, 0.5});
}

TEST_CASE("set-ups: what all of them redid") {
  TestBuilder b;
  Test t = b.setups(1, 1).build();
  t.record.setups[1].redone = std::vector<Redone>{Redone::mount, Redone::aim};
  const StageBlocks blocks = collect_stage_blocks(t, both);
  CHECK(redone_in_all(t, blocks) == std::vector<Redone>{Redone::mount, Redone::aim});
  t.protocol.measure.redone.reset();
  CHECK_FALSE(redone_in_all(t, blocks).has_value());
}

TEST_CASE("set-ups: stages that scatter unlike") {
  // F of the ratio of variances over F_0.975(3, 3) = 15.439 (table value, from memory).
  CHECK_THAT(*variance_ratio({1, -1, 1, -1}, {1, -1, 1, -1}), WithinAbs(1.0 / 15.439, 5e-5));
  CHECK(*variance_ratio({1, -1, 1, -1}, {10, -10, 10, -10}) > 1.0);
  CHECK_FALSE(variance_ratio({1, 2}, {1, 2, 3}).has_value());
  CHECK_FALSE(variance_ratio({1, 1, 1}, {1, 2, 3}).has_value());
}

TEST_CASE("set-up units: what belongs to another comparison leaves a set-up out") {
  Test t = TestBuilder().build();
  t.record.siblings.push_back({{}, "U1"});
  Setup own = t.record.setups.back();
  own.name = "of the unit";
  t.record.setups.push_back(own);
  Reading r = t.record.readings.back();
  r.role = Role::sibling;
  r.setup = t.record.setups.size() - 1;
  t.record.readings.push_back(r);
  const StageId before{StageKind::before, 0};
  const StageId after{StageKind::after, 0};
  const StageBlocks blocks = collect_stage_blocks(t, {before, after, PowerQuestion::Of::both});
  CHECK_FALSE(blocks.unpaired);
  CHECK(blocks.to.size() == 4);
  // A baseline that is one side of the comparison is none beside it.
  const StageId baseline{StageKind::baseline, 0};
  for (std::size_t i = 0; i < 2; ++i)
    t.record.setups[i].stage = baseline;
  using Of = PowerQuestion::Of;
  CHECK(collect_stage_blocks(t, {before, after, Of::both}).baseline.size() == 2);
  CHECK(collect_stage_blocks(t, {baseline, before, Of::both}).baseline.empty());
  CHECK(collect_stage_blocks(t, {before, baseline, Of::both}).baseline.empty());
}

TEST_CASE("set-up units: mistakes of ours fail at once") {
  const Test t = TestBuilder().build();
  const StageId before{StageKind::before, 0};
  CHECK_THROWS_AS(collect_stage_blocks(t, {before, before, PowerQuestion::Of::siblings}), BugError);
  const PanelOf one{Role::struck, 0};
  CHECK_THROWS_AS(make_unit(t, 0, {one}, {1.0}, {}), BugError);
  CHECK_THROWS_AS(make_unit(t, 0, {one}, {1.0, -1.0}, {{&t.record.readings[0]}}), BugError);
}
