#include "evaluate/bypass_check.hpp"

#include <cmath>

#include "evaluate/instrument_inputs.hpp"
#include "evaluate/power_inputs.hpp"
#include "hailwright/core/contract.hpp"

namespace hailwright {

namespace {

/// A voltmeter that nobody describes is taken for one of the kind that power meters hold.
Stated<Voltage> voltmeter_of(const ShadeTrial& trial, Assumptions& assumptions) {
  if (trial.voltmeter) return *trial.voltmeter;
  assumptions.use(DefaultId::meter_accuracy);
  const Stated<Power> meter = default_meter_error();
  Stated<Voltage> s;
  s.shape = meter.shape;
  s.relative = meter.relative;
  s.digits = meter.digits;
  return s;
}

Voltage step_of(const ShadeTrial& trial, const Stated<Voltage>& meter, Assumptions& assumptions) {
  if (trial.voltmeter_step || !(meter.digits > 0.0))
    return trial.voltmeter_step.value_or(Voltage{});
  assumptions.use(DefaultId::display_step);
  return Voltage::from_si(typed_step({trial.open_free->si(), trial.open_shaded->si()}));
}

/// Errors of the drop relative to what it should be. The offset of the meter is the same in both
/// voltages: of the share that is lost, 1 - shaded / free, only shaded / free^2 of it is left.
std::vector<BudgetRow> rows_of(const ShadeTrial& trial, Assumptions& assumptions) {
  const Stated<Voltage> meter = voltmeter_of(trial, assumptions);
  const Voltage step = step_of(trial, meter, assumptions);
  const double left = trial.open_shaded->si() / trial.open_free->si();
  std::vector<BudgetRow> rows;
  const auto add = [&](const char* id, const char* label, double u, double sensitivity) {
    if (u > 0.0) {
      rows.push_back({type_b(id, label, Scope::record, u, meter.shape, meter.degrees_of_freedom),
                      sensitivity});
    }
  };
  add("voltmeter/offset", "voltmeter, offset", meter.constant_u().si(), left - 1.0);
  const double digits = meter.digits_u(step).si();
  add("voltmeter/digits/free", "voltmeter, digits without the shade", digits, left);
  add("voltmeter/digits/shaded", "voltmeter, digits in the shade", digits, -1.0);
  return rows;
}

BypassWord word_of(double least, double most) {
  const double tolerance = bypass_tolerance.si();
  if (most < 1.0 - tolerance) return BypassWord::smaller;
  if (least > 1.0 + tolerance) return BypassWord::larger;
  if (least >= 1.0 - tolerance && most <= 1.0 + tolerance) return BypassWord::as_expected;
  return BypassWord::cannot_tell;
}

}  // namespace

BypassCheck check_bypass(const ShadeTrial& trial, const std::optional<int>& substrings,
                         Assumptions& assumptions) {
  expects(trial.open_free && trial.open_shaded, "both open-circuit voltages");
  BypassCheck check;
  check.shaded = trial.substrings_shaded.value_or(1);
  check.substrings = substrings;
  check.budget = rows_of(trial, assumptions);
  const Combined all = combine(check.budget);
  const Voltage drop = *trial.open_free - *trial.open_shaded;
  check.drop = {drop, Voltage::from_si(all.standard_u), all.degrees_of_freedom};
  const double half = half_width_of(all.standard_u, all.degrees_of_freedom, check.budget);
  check.half_width = Voltage::from_si(half);
  if (!substrings || check.shaded > *substrings) return check;
  check.expected = *trial.open_free * (static_cast<double>(check.shaded) / *substrings);
  check.word =
      word_of((drop.si() - half) / check.expected->si(), (drop.si() + half) / check.expected->si());
  return check;
}

}  // namespace hailwright
