#include "plan/imagined_measurement.hpp"

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

void add_stage(Test& test, const ImaginedMeasurement& wanted, StageKind kind) {
  const bool after = kind == StageKind::after;
  const TemperatureDifference warmer = after ? wanted.warmer_after : TemperatureDifference{};
  for (int k = 0; k < (after ? wanted.after : wanted.before); ++k) {
    Setup setup;
    setup.stage = {kind, 0};
    setup.number = k + 1;
    setup.name = (after ? "after " : "before ") + std::to_string(k + 1);
    // Only which set-ups share a day matters, not its date.
    setup.date =
        setup.name.substr(0, setup.name.find(' ')) + " day " + std::to_string(k % wanted.days + 1);
    test.record.setups.push_back(setup);
    for (int r = 1; r <= std::min(wanted.readings, most_readings); ++r) {
      Reading reading;
      reading.setup = test.record.setups.size() - 1;
      reading.round = r;
      reading.irradiance = sun;
      reading.temperature = TemperaturePoint::from_celsius(back_c) + warmer;
      reading.power = reading_of(wanted.panel, warmer);
      test.record.readings.push_back(reading);
      if (!test.record.control) continue;
      reading.role = Role::control;
      reading.power = reading_of(*test.record.control, warmer);
      test.record.readings.push_back(reading);
    }
  }
}

/// The protocol's instruments once more, as others of the same kind.
Tools others(Tools tools) {
  const SourceSpan somewhere{0, 1, 1};
  tools.meter.origin = somewhere;
  tools.sun.origin = somewhere;
  tools.thermometer.origin = somewhere;
  return tools;
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
  if (wanted.other_instruments) test.record.tools_after = others(wanted.protocol.tools);
  add_stage(test, wanted, StageKind::before);
  add_stage(test, wanted, StageKind::after);
  return test;
}

}  // namespace hailwright
