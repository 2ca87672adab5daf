#include "plan/measuring_advice.hpp"

#include <algorithm>
#include <cmath>

#include "support/catch.hpp"
#include "support/test_builder.hpp"

using namespace hailwright;
using hailwright::testing::TestBuilder;

namespace {

constexpr double scatter = 0.006;

Protocol plan(bool control, int setups = 4) {
  TestBuilder b;
  if (!control) b.same_panel();
  Protocol p = b.build().protocol;
  p.measure.before = setups;
  p.measure.after = setups;
  p.measure.expected_scatter = Ratio::from_si(scatter);
  return p;
}

MeasuringForecast forecast(const Protocol& protocol, const Panel& panel = {}) {
  Assumptions unlisted;
  return forecast_measuring(protocol, panel, unlisted).at(0);
}

const MeasuringAdvice* find(const std::vector<MeasuringAdvice>& list, MeasuringChange change) {
  const auto it =
      std::find_if(list.begin(), list.end(), [&](const auto& a) { return a.change == change; });
  return it == list.end() ? nullptr : &*it;
}

double then(const std::vector<MeasuringAdvice>& list, MeasuringChange change) {
  const MeasuringAdvice* advice = find(list, change);
  REQUIRE(advice != nullptr);
  return advice->then.si();
}

}  // namespace

// Each figure against the forecast of the plan that the advice is about, written as a protocol.
TEST_CASE("measuring_advice: each change is the forecast of the changed plan") {
  const Protocol alone = plan(false);
  const MeasuringForecast f = forecast(alone);
  for (const MeasuringAdvice& a : f.helps) {
    CAPTURE(static_cast<int>(a.change));
    CHECK(a.then < a.now);
  }
  Protocol beside = plan(true);
  beside.measure.expected_scatter = Ratio::from_si(scatter * std::sqrt(2.0));
  CHECK_THAT(then(f.helps, MeasuringChange::control_panel),
             WithinRel(forecast(beside).planned.smallest_shown.si(), 1e-12));
  CHECK(f.helps.front().change == MeasuringChange::control_panel);

  CHECK_THAT(then(forecast(plan(true)).helps, MeasuringChange::more_setups),
             WithinRel(forecast(plan(true, 8)).planned.smallest_shown.si(), 1e-12));

  Protocol told = alone;
  told.measure.day = percent(0.5);
  CHECK_THAT(then(f.helps, MeasuringChange::tell_day),
             WithinRel(forecast(told).planned.smallest_shown.si(), 1e-12));
  CHECK(find(forecast(told).helps, MeasuringChange::tell_day) == nullptr);
  told = alone;
  told.measure.stage = percent(0.25);
  CHECK_THAT(then(f.helps, MeasuringChange::tell_drift),
             WithinRel(forecast(told).planned.smallest_shown.si(), 1e-12));
  told = alone;
  Stated<Irradiance> sun;
  sun.relative = percent(5);
  told.tools.sun.error = sun;
  CHECK_THAT(then(f.helps, MeasuringChange::better_sun_meter),
             WithinRel(forecast(told).planned.smallest_shown.si(), 1e-12));
}

TEST_CASE("measuring_advice: three days help the panel alone, which the sky dominates") {
  const MeasuringForecast f = forecast(plan(false));
  CHECK(f.budget.front().label == "sky of a day, shared by its set-ups");
  CHECK(find(f.helps, MeasuringChange::three_days) != nullptr);
  // Beside a control four degrees of freedom cost more than the small sky term.
  CHECK(find(forecast(plan(true)).helps, MeasuringChange::three_days) == nullptr);
}

TEST_CASE("measuring_advice: other instruments and warmth spoil the panel alone") {
  const MeasuringForecast f = forecast(plan(false));
  CHECK(find(f.spoils, MeasuringChange::other_instruments) != nullptr);
  CHECK(find(f.spoils, MeasuringChange::warmer_after) != nullptr);
  for (const MeasuringAdvice& a : f.spoils) {
    CHECK(a.then > a.now);
    CHECK(a.now == f.best().smallest_shown);
  }
  // Panels of one model warm alike: their coefficient falls out of the difference.
  CHECK(find(forecast(plan(true)).spoils, MeasuringChange::warmer_after) == nullptr);
}

TEST_CASE("measuring_advice: the coefficient is asked for only where the panel file lacks it") {
  Protocol p = plan(false);
  p.measure.day = percent(0.0);  // so that it is not drowned
  p.measure.stage = percent(0.0);
  p.measure.expected_scatter = percent(0.1);
  p.tools.sun.between_stages = percent(0.0);
  const MeasuringForecast lacking = forecast(p);
  const MeasuringAdvice* advice = find(lacking.helps, MeasuringChange::tell_coefficient);
  REQUIRE(advice != nullptr);
  // Both sides are reckoned with the panel warmer after the shots.
  CHECK(advice->now > lacking.best().smallest_shown);
  Panel with_sheet;
  with_sheet.power_coefficient = defaults::coefficient;
  CHECK(find(forecast(p, with_sheet).helps, MeasuringChange::tell_coefficient) == nullptr);
}

TEST_CASE("measuring_advice: nothing is advised that decides nothing") {
  ImaginedMeasurement m;
  m.protocol = plan(false);
  m.protocol.measure.redone = std::vector<Redone>{Redone::probe};  // the mount is of unknown size
  const ChangeList none = try_changes(m, {scatter, 0.0}, {0.025, 0.9, 0.05, 0.05});
  CHECK(none.helps.empty());
  CHECK(none.spoils.empty());
}

namespace {

Protocol of_siblings(double tolerance_percent) {
  Protocol p = plan(false);
  p.measure.compare = Comparison::sibling_panel;
  p.measure.before.reset();
  p.measure.siblings = 4;
  p.measure.unit_tolerance = percent(tolerance_percent);
  return p;
}

}  // namespace

// The same protocol read before the shots too: compared with itself, or beside a control panel.
TEST_CASE("measuring_advice: siblings are told what reading before the shots would show") {
  const MeasuringForecast f = forecast(of_siblings(3));
  CHECK_THAT(then(f.helps, MeasuringChange::read_before),
             WithinRel(forecast(plan(false)).planned.smallest_shown.si(), 1e-12));
  Protocol beside = plan(true);
  beside.measure.expected_scatter = Ratio::from_si(scatter * std::sqrt(2.0));
  CHECK_THAT(then(f.helps, MeasuringChange::read_before_beside),
             WithinRel(forecast(beside).planned.smallest_shown.si(), 1e-12));
  Protocol more = of_siblings(3);
  more.measure.siblings = 8;
  CHECK_THAT(then(f.helps, MeasuringChange::more_siblings),
             WithinRel(forecast(more).planned.smallest_shown.si(), 1e-12));
  // Everything is read in one stage, by one set of instruments, in one warmth.
  CHECK(f.spoils.empty());
  for (const MeasuringChange change :
       {MeasuringChange::control_panel, MeasuringChange::three_days, MeasuringChange::tell_drift,
        MeasuringChange::one_meter, MeasuringChange::better_meter,
        MeasuringChange::better_sun_meter})
    CHECK(find(f.helps, change) == nullptr);
  // The gains of two meters do not cancel between panels that are read but once.
  Protocol two = of_siblings(3);
  two.measure.meters = 2;
  CHECK_THAT(then(forecast(two).helps, MeasuringChange::one_meter),
             WithinRel(f.planned.smallest_shown.si(), 1e-12));
  // Units that hardly differ do better than a panel compared with itself under another sky.
  CHECK(find(forecast(of_siblings(0.2)).helps, MeasuringChange::read_before) == nullptr);
}

TEST_CASE("measuring_advice: a line in time is weighed against none") {
  Protocol p = plan(true);
  CHECK(find(forecast(p).helps, MeasuringChange::no_trend) == nullptr);
  p.measure.fitted_trend = true;
  CHECK_THAT(then(forecast(p).helps, MeasuringChange::no_trend),
             WithinRel(forecast(plan(true)).planned.smallest_shown.si(), 1e-12));
}
