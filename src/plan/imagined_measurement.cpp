#include "plan/imagined_measurement.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "hailwright/evaluate/defaults.hpp"

namespace hailwright {

namespace {

constexpr Irradiance sun = Irradiance::from_si(900.0);
constexpr double back_c = 45.0;
/// Taken for a panel whose file rates no power [ours]; shares of the power do not depend on it.
constexpr double unrated_w = 100.0;

/// Readings are exact and alike, so that more of them change nothing but the time it takes.
constexpr int most_readings = 6;

/// Power that a panel gives there, typed to the tenth of a watt as inline meters show it [ours].
Power reading_of(const Panel& panel, TemperatureDifference warmer) {
  const double rated_w = panel.rated_power ? panel.rated_power->si() : unrated_w;
  const double above_k = back_c + warmer.si() + defaults::cell_above_back.si() - 25.0;
  const double watts = rated_w * sun.si() / 1000.0 * (1.0 + defaults::coefficient.si() * above_k);
  // Never a whole number: the step of the display is taken from the figures as typed.
  return Power::from_si(std::floor(watts) + 0.1);
}

// The hours of an imagined day, in minutes [ours].
constexpr int first_setup = 9 * 60;
constexpr int apart = 30;        // from one set-up to the next
constexpr int longest = 4 * 60;  // from the first set-up of a stage to the last of that day
constexpr int shots_take = 2 * 60;

/// When each set-up of one stage begins. Set-ups go round the days of their stage.
class Calendar {
public:
  Calendar(const ImaginedMeasurement& wanted, StageKind kind)
      : days_(wanted.days), after_(kind == StageKind::after), before_(per_day(wanted.units.before)),
        mine_(per_day(after_ ? wanted.units.after : wanted.units.before)) {}

  [[nodiscard]] std::string date(int setup) const {
    // The shots fall on the last day before; where each stage has one day, both have the same.
    const int later = after_ && days_ > 1 ? days_ : 0;
    return fmt::format("2000-06-{:02}", 1 + later + setup % days_);
  }
  [[nodiscard]] int minute(int setup) const {
    const int later = after_ && days_ == 1 ? takes(before_) + shots_take : 0;
    const int turn = setup / days_;
    return first_setup + later + (mine_ < 2 ? 0 : takes(mine_) * turn / (mine_ - 1));
  }

private:
  [[nodiscard]] int per_day(int setups) const { return (setups + days_ - 1) / days_; }
  static int takes(int setups) { return std::clamp(apart * (setups - 1), 0, longest); }

  int days_;
  bool after_;
  int before_, mine_;  ///< set-ups of a day
};

/// One reading of each panel of the test.
void add_round(Test& test, Reading reading, const Panel& panel, TemperatureDifference warmer) {
  const auto add = [&](Role role, std::size_t unit, const Panel& of) {
    reading.role = role;
    reading.unit = unit;
    reading.power = reading_of(of, warmer);
    test.record.readings.push_back(reading);
  };
  add(Role::struck, 0, panel);
  if (test.record.control) add(Role::control, 0, *test.record.control);
  for (std::size_t i = 0; i < test.record.siblings.size(); ++i)
    add(Role::sibling, i, panel);
}

void add_stage(Test& test, const ImaginedMeasurement& wanted, StageKind kind) {
  const bool after = kind == StageKind::after;
  const TemperatureDifference warmer = after ? wanted.warmer_after : TemperatureDifference{};
  const Calendar calendar(wanted, kind);
  for (int k = 0; k < (after ? wanted.units.after : wanted.units.before); ++k) {
    Setup setup;
    setup.stage = {kind, 0};
    setup.number = k + 1;
    setup.name = (after ? "after " : "before ") + std::to_string(k + 1);
    setup.date = calendar.date(k);
    test.record.setups.push_back(setup);
    for (int r = 1; r <= std::min(wanted.readings, most_readings); ++r) {
      Reading reading;
      reading.setup = test.record.setups.size() - 1;
      reading.minute = calendar.minute(k) + r - 1;
      reading.round = r;
      reading.irradiance = sun;
      reading.temperature = TemperaturePoint::from_celsius(back_c) + warmer;
      add_round(test, reading, wanted.panel, warmer);
    }
  }
}

}  // namespace

Test imagine(const ImaginedMeasurement& wanted) {
  Test test;
  test.protocol = wanted.protocol;
  // What the protocol leaves open the record can still say; the forecast tells that it must.
  if (!test.protocol.measure.redone)
    test.protocol.measure.redone = std::vector<Redone>(all_redone.begin(), all_redone.end());
  test.record.panel = wanted.panel;
  if (wanted.protocol.measure.compare == Comparison::control_panel) {
    test.record.control = wanted.control.value_or(wanted.panel);
    test.record.control_same_model = !wanted.control;
  }
  test.record.conditions.same_tools = !wanted.other_instruments;
  for (int i = 1; i <= wanted.units.siblings; ++i)
    test.record.siblings.push_back({{}, fmt::format("sibling {}", i)});
  add_stage(test, wanted, StageKind::before);
  add_stage(test, wanted, StageKind::after);
  return test;
}

ImaginedMeasurement compared_with_itself(ImaginedMeasurement measurement) {
  MeasurementPlan& plan = measurement.protocol.measure;
  if (plan.compare != Comparison::sibling_panel) return measurement;
  plan.compare = Comparison::same_panel;
  measurement.units = enough_units(plan, {measurement.units.after, measurement.units.after, 0});
  return measurement;
}

}  // namespace hailwright
