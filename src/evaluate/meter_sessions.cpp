#include "hailwright/evaluate/meter_sessions.hpp"

#include <array>
#include <cmath>
#include <string>
#include <utility>

#include "evaluate/instrument_inputs.hpp"
#include "evaluate/log_inputs.hpp"
#include "evaluate/power_inputs.hpp"
#include "evaluate/same_tools.hpp"
#include "hailwright/metrology/dual.hpp"

namespace hailwright {

namespace {

using Slopes = std::array<double, error_slots>;

/// An energy as it was read, with what its meter is taken to be wrong by.
struct MeterReading {
  Energy energy;
  Stated<Energy> meter;
  Energy step;  ///< of the display
};

/// What a meter of energy that nobody describes is wrong by: as a power meter of that kind.
Stated<Energy> default_energy_error() {
  const Stated<Power> meter = default_meter_error();
  Stated<Energy> s;
  s.shape = meter.shape;
  s.relative = meter.relative;
  s.digits = meter.digits;
  return s;
}

/// Errors of an energy: a relative one, and constant ones in J.
struct EnergyInputs {
  std::vector<BudgetInput> gains, constants;
};

EnergyInputs energy_inputs(const MeterReading& r, const std::string& suffix) {
  EnergyInputs inputs;
  const std::string whose = suffix.empty() ? "" : ", second panel";
  const auto add = [&](std::vector<BudgetInput>& to, const char* id, const char* label, double u,
                       Shape shape, double dof) {
    if (u > 0.0) to.push_back(type_b(id + suffix, label + whose, Scope::record, u, shape, dof));
  };
  const double dof = r.meter.degrees_of_freedom;
  add(inputs.gains, "energy-meter/gain", "energy meter, gain", r.meter.relative_u(), r.meter.shape,
      dof);
  add(inputs.constants, "energy-meter/offset", "energy meter, offset", r.meter.constant_u().si(),
      r.meter.shape, dof);
  if (r.meter.digits > 0.0) {
    add(inputs.constants, "energy-meter/digits", "energy meter, digits",
        r.meter.digits_u(r.step).si(), r.meter.shape, dof);
  } else {
    // A total is read once: it is rounded to the step (JCGM 100:2008, F.2.2.1).
    add(inputs.constants, "energy-meter/step", "energy meter, step of its display",
        r.step.si() / 2.0 / half_width_divisor(Shape::rectangular), Shape::rectangular,
        std::numeric_limits<double>::infinity());
  }
  return inputs;
}

std::vector<BudgetRow> rows_of(const EnergyInputs& inputs, double of_gain, double of_constant) {
  std::vector<BudgetRow> rows;
  for (const BudgetInput& i : inputs.gains)
    rows.push_back({i, of_gain});
  for (const BudgetInput& i : inputs.constants)
    rows.push_back({i, of_constant});
  return rows;
}

/// What lies anywhere between two ends.
BudgetInput between_ends(const char* id, const char* label, double distance) {
  return type_b(id, label, Scope::reading,
                std::abs(distance) / 2.0 / half_width_divisor(Shape::rectangular),
                Shape::rectangular);
}

class SessionWeighing {
public:
  SessionWeighing(const Test& test, const MeterSession& session)
      : test_(test), s_(session), tools_(tools_when(test, session.after)) {}

  MeterSessionResult weigh() {
    const MeterReading first{s_.energy, meter(s_.meter),
                             step(s_.energy_step, s_.meter, s_.typed_step)};
    inputs_ = energy_inputs(first, "");
    const double joules = s_.energy.si();
    const double seconds = s_.lasting.si();
    result_.energy = log_number<Energy>(joules, rows_of(inputs_, joules, 1.0));
    std::vector<BudgetRow> rows = rows_of(inputs_, joules / seconds, 1.0 / seconds);
    rows.push_back({duration(), -joules / seconds / seconds});
    result_.mean_power = log_number<Power>(joules / seconds, std::move(rows));
    if (can_normalise()) normalise();
    if (s_.beside) hold_beside(first);
    return std::move(result_);
  }

private:
  Stated<Energy> meter(const std::optional<Stated<Energy>>& stated) {
    if (stated) return *stated;
    result_.assumptions.use(DefaultId::meter_accuracy);
    return default_energy_error();
  }

  /// The display's, else that of the last digit as typed.
  Energy step(const std::optional<Energy>& stated, const std::optional<Stated<Energy>>& error,
              Energy typed) {
    if (stated) return *stated;
    if (!error || error->digits > 0.0) result_.assumptions.use(DefaultId::display_step);
    return typed;
  }

  /// Read off a clock at the start and at the end, each rounded to the step: a triangle as wide as
  /// the step to either side.
  [[nodiscard]] BudgetInput duration() const {
    return type_b("duration", "duration, read twice", Scope::record,
                  s_.lasting_step.si() / half_width_divisor(Shape::triangular), Shape::triangular);
  }

  [[nodiscard]] bool can_normalise() const {
    return s_.sun_start && s_.sun_end && s_.back_start && s_.back_end && s_.energy.si() > 0.0;
  }

  /// As a reading of the mean power at the means of the two ends.
  void normalise() {
    const PanelThermal thermal = panel_thermal(test_.record.panel, tools_.thermometer,
                                               test_.protocol.measure.cell_above_back);
    result_.mean_sun = (*s_.sun_start + *s_.sun_end) / 2.0;
    result_.mean_back = *s_.back_start + (*s_.back_end - *s_.back_start) / 2.0;
    const NormalisedReading mean{result_.mean_power.estimate.value, result_.mean_sun,
                                 result_.mean_back, thermal.gamma, thermal.cell_above_back};
    using D = Dual<error_slots>;
    std::array<D, error_slots> errors;
    for (std::size_t s = 0; s < error_slots; ++s)
      errors.at(s) = D::variable(0.0, s);
    const D q = log_normalised_power(mean, errors);
    const double value = std::exp(q.value);
    Slopes slopes = q.slope;
    for (double& slope : slopes)
      slope *= value;
    result_.normalised = log_number<Power>(value, normalised_rows(thermal, slopes));
  }

  std::vector<BudgetRow> normalised_rows(const PanelThermal& thermal, const Slopes& slopes) {
    const auto slope = [&](ErrorSlot slot) { return slopes.at(static_cast<std::size_t>(slot)); };
    const double seconds = s_.lasting.si();
    std::vector<BudgetRow> rows =
        rows_of(inputs_, slope(ErrorSlot::meter_gain), slope(ErrorSlot::meter_offset) / seconds);
    rows.push_back({duration(), -slope(ErrorSlot::meter_gain) / seconds});
    const double sun_step = typed_step({s_.sun_start->si(), s_.sun_end->si()});
    Assumptions& assumptions = result_.assumptions;
    for (const auto& inputs :
         {sun_inputs(tools_, Irradiance::from_si(sun_step), assumptions),
          thermal_inputs(tools_, thermal, result_.mean_back, "", assumptions)}) {
      const std::vector<BudgetRow> more = budget_rows(inputs, slopes);
      rows.insert(rows.end(), more.begin(), more.end());
    }
    rows.push_back({between_ends("sun/ends", "irradiance between its two ends",
                                 s_.sun_end->si() - s_.sun_start->si()),
                    slope(ErrorSlot::sun_offset)});
    rows.push_back({between_ends("thermometer/ends", "temperature between its two ends",
                                 (*s_.back_end - *s_.back_start).si()),
                    slope(ErrorSlot::temperature)});
    return rows;
  }

  /// Two meters are wrong independently of each other, of one kind or not; the time is the same.
  void hold_beside(const MeterReading& first) {
    const EnergyBeside& b = *s_.beside;
    const auto& stated = b.meter ? b.meter : s_.meter;
    const MeterReading second{
        b.energy, b.meter ? *b.meter : first.meter,
        step(b.energy_step ? b.energy_step : s_.energy_step, stated, b.typed_step)};
    const EnergyInputs inputs = energy_inputs(second, "/beside");
    const double joules = b.energy.si();
    result_.energy_beside = log_number<Energy>(joules, rows_of(inputs, joules, 1.0));
    if (!(s_.energy.si() > 0.0)) return;
    const double ratio = joules / s_.energy.si();
    std::vector<BudgetRow> rows = rows_of(inputs_, -ratio, -ratio / s_.energy.si());
    const std::vector<BudgetRow> more = rows_of(inputs, ratio, 1.0 / s_.energy.si());
    rows.insert(rows.end(), more.begin(), more.end());
    result_.ratio = log_number<Ratio>(ratio, std::move(rows));
  }

  const Test& test_;
  const MeterSession& s_;
  Tools tools_;
  EnergyInputs inputs_;
  MeterSessionResult result_;
};

}  // namespace

std::vector<MeterSessionResult> weigh_meter_sessions(const Test& test) {
  std::vector<MeterSessionResult> results;
  for (std::size_t i = 0; i < test.record.energy.size(); ++i) {
    results.push_back(SessionWeighing(test, test.record.energy[i]).weigh());
    results.back().session = i;
  }
  return results;
}

}  // namespace hailwright
