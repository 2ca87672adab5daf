#include "plan/imagined_measurement.hpp"

#include <algorithm>
#include <set>

#include "hailwright/evaluate/power_model.hpp"
#include "support/catch.hpp"

using namespace hailwright;

namespace {

ImaginedMeasurement plain(Comparison compare) {
  ImaginedMeasurement m;
  m.protocol.measure.compare = compare;
  m.panel.rated_power = Power::from_si(100.0);
  return m;
}

int readings_of(const Test& t, StageKind stage, Role role) {
  return static_cast<int>(
      std::count_if(t.record.readings.begin(), t.record.readings.end(), [&](const Reading& r) {
        return t.record.setups[r.setup].stage.kind == stage && r.role == role;
      }));
}

}  // namespace

TEST_CASE("imagined_measurement: the planned numbers, all readings alike") {
  ImaginedMeasurement m = plain(Comparison::control_panel);
  m.units.before = 4;
  m.units.after = 2;
  m.readings = 6;
  const Test t = imagine(m);
  CHECK(t.record.setups.size() == 6);
  CHECK(readings_of(t, StageKind::before, Role::struck) == 24);
  CHECK(readings_of(t, StageKind::after, Role::struck) == 12);
  CHECK(readings_of(t, StageKind::after, Role::control) == 12);
  CHECK(t.record.control_same_model);
  for (const Reading& r : t.record.readings) {
    CHECK(r.irradiance.si() == 900.0);
    CHECK_THAT(r.temperature.celsius(), WithinAbs(45.0, 1e-9));
    CHECK(r.power == t.record.readings.front().power);
  }
  // 100 W at 900 W/m2 and 48 degC in the cells with -0.35 %/K: 82.8 W.
  CHECK_THAT(t.record.readings.front().power.si(), WithinAbs(82.8, 1.0));
  Assumptions assumptions;
  const auto result = build_power_model(
      t, {{StageKind::before, 0}, {StageKind::after, 0}, PowerQuestion::Of::both, false},
      ScatterSource::observed, assumptions);
  REQUIRE(result.model);
  CHECK_THAT(result.model->lambda(), WithinAbs(0.0, 1e-12));
  CHECK_THAT(*result.model->pooled_sd, WithinAbs(0.0, 1e-12));
}

TEST_CASE("imagined_measurement: a control is there only where it is compared") {
  const Test alone = imagine(plain(Comparison::same_panel));
  CHECK_FALSE(alone.record.control);
  CHECK(readings_of(alone, StageKind::before, Role::control) == 0);
  ImaginedMeasurement m = plain(Comparison::control_panel);
  m.control = Panel{};
  m.control->rated_power = Power::from_si(50.0);
  const Test other = imagine(m);
  CHECK_FALSE(other.record.control_same_model);
  CHECK(other.record.readings[1].power < other.record.readings[0].power);
}

TEST_CASE("imagined_measurement: days, warmth and other instruments") {
  ImaginedMeasurement m = plain(Comparison::same_panel);
  m.units.before = 5;
  m.days = 3;
  m.warmer_after = TemperatureDifference::from_si(10.0);
  m.other_instruments = true;
  const Test t = imagine(m);
  std::set<std::string> before;
  std::set<std::string> after;
  for (const Setup& s : t.record.setups)
    (s.stage.kind == StageKind::before ? before : after).insert(s.date);
  CHECK(before.size() == 3);
  CHECK(after.size() == 3);
  CHECK_THAT(t.record.readings.back().temperature.celsius(), WithinAbs(55.0, 1e-9));
  CHECK(t.record.readings.back().power < t.record.readings.front().power);
  CHECK(t.record.conditions.same_tools == false);
  CHECK(imagine(plain(Comparison::same_panel)).record.conditions.same_tools == true);
}

TEST_CASE(
    "imagined_measurement: siblings are read in each set-up after the shots, and none before") {
  ImaginedMeasurement m = plain(Comparison::sibling_panel);
  m.units = {0, 3, 4};
  m.readings = 2;
  const Test t = imagine(m);
  CHECK(t.record.setups.size() == 3);
  CHECK(t.record.siblings.size() == 4);
  CHECK(readings_of(t, StageKind::before, Role::struck) == 0);
  CHECK(readings_of(t, StageKind::after, Role::struck) == 6);
  CHECK(readings_of(t, StageKind::after, Role::sibling) == 24);
  std::set<std::size_t> units;
  std::set<std::string> labels;
  for (const Reading& r : t.record.readings) {
    if (r.role == Role::sibling) units.insert(r.unit);
    CHECK(r.power == t.record.readings.front().power);
  }
  for (const Sibling& sibling : t.record.siblings)
    labels.insert(sibling.label);
  CHECK(units.size() == 4);
  CHECK(labels.size() == 4);
  Assumptions assumptions;
  const StageId after{StageKind::after, 0};
  const auto result = build_power_model(t, {after, after, PowerQuestion::Of::siblings},
                                        ScatterSource::observed, assumptions);
  REQUIRE(result.model);
  CHECK_THAT(result.model->lambda(), WithinAbs(0.0, 1e-12));
  REQUIRE(result.model->siblings);
  CHECK(result.model->siblings->units.size() == 4);
  CHECK_THAT(*result.model->siblings->sd, WithinAbs(0.0, 1e-12));
}

TEST_CASE("imagined_measurement: the hours of a day") {
  ImaginedMeasurement m = plain(Comparison::same_panel);
  m.units = {3, 4, 0};
  const auto begins = [](const Test& t) {
    std::vector<int> minutes;
    for (std::size_t i = 0; i < t.record.setups.size(); ++i) {
      const auto first = std::find_if(t.record.readings.begin(), t.record.readings.end(),
                                      [i](const Reading& r) { return r.setup == i; });
      minutes.push_back(first->minute.value());
    }
    return minutes;
  };
  // Half an hour from one to the next, two hours for the shots.
  CHECK(begins(imagine(m)) == std::vector<int>{540, 570, 600, 720, 750, 780, 810});
  // A hundred a stage find room in a day all the same.
  m.units = {100, 100, 0};
  const std::vector<int> crowded = begins(imagine(m));
  CHECK(std::is_sorted(crowded.begin(), crowded.end()));
  CHECK(crowded.back() < 24 * 60);
  // Three days a stage: each has its own hours, the first of them the first set-up's.
  m.units = {4, 3, 0};
  m.days = 3;
  const Test days = imagine(m);
  CHECK(begins(days) == std::vector<int>{540, 540, 540, 570, 540, 540, 540});
  CHECK(days.record.setups[3].date == days.record.setups[0].date);
  CHECK(days.record.setups[4].date > days.record.setups[2].date);
}

TEST_CASE("imagined_measurement: compared with itself in place of siblings") {
  ImaginedMeasurement m = plain(Comparison::sibling_panel);
  m.units = {0, 5, 4};
  const ImaginedMeasurement alone = compared_with_itself(m);
  CHECK(alone.protocol.measure.compare == Comparison::same_panel);
  CHECK(alone.units.before == 5);
  CHECK(alone.units.after == 5);
  CHECK(alone.units.siblings == 0);
  m.units.after = 1;
  CHECK(compared_with_itself(m).units.before == 3);
  // Nothing to change in other comparisons.
  m = plain(Comparison::control_panel);
  m.units = {1, 2, 0};
  CHECK(compared_with_itself(m).units.before == 1);
  CHECK(compared_with_itself(m).protocol.measure.compare == Comparison::control_panel);
}

TEST_CASE("imagined_measurement: what set-ups redo is taken for all where nothing is said") {
  ImaginedMeasurement m = plain(Comparison::same_panel);
  CHECK(imagine(m).protocol.measure.redone->size() == all_redone.size());
  m.protocol.measure.redone = std::vector<Redone>{Redone::probe};
  CHECK(imagine(m).protocol.measure.redone->size() == 1);
}
