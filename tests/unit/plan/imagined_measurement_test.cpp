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
  m.before = 4;
  m.after = 2;
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
  m.before = 5;
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
  REQUIRE(t.record.tools_after);
  CHECK(t.record.tools_after->meter.origin.line != 0);
  CHECK_FALSE(imagine(plain(Comparison::same_panel)).record.tools_after);
}

TEST_CASE("imagined_measurement: what set-ups redo is taken for all where nothing is said") {
  ImaginedMeasurement m = plain(Comparison::same_panel);
  CHECK(imagine(m).protocol.measure.redone->size() == all_redone.size());
  m.protocol.measure.redone = std::vector<Redone>{Redone::probe};
  CHECK(imagine(m).protocol.measure.redone->size() == 1);
}
