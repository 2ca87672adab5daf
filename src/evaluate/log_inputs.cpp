#include "evaluate/log_inputs.hpp"

#include <algorithm>
#include <cmath>
#include <utility>

#include "evaluate/instrument_inputs.hpp"

namespace hailwright {

namespace {

/// Collects the errors that have a size.
class Inputs {
public:
  explicit Inputs(std::string suffix) : suffix_(std::move(suffix)) {}

  template <class Q>
  void add(ErrorSlot slot, const char* id, const char* label, double u, const Stated<Q>& error) {
    add(slot, id, label, {u, error.shape, error.degrees_of_freedom});
  }
  void add(ErrorSlot slot, const char* id, const char* label, const PanelThermal::Error& e,
           Scope scope = Scope::record) {
    if (e.u <= 0.0) return;
    const std::string whose = suffix_.empty() ? "" : ", second panel";
    all_.push_back(
        {slot, type_b(id + suffix_, label + whose, scope, e.u, e.shape, e.degrees_of_freedom)});
  }
  std::vector<SlotInput> take() { return std::move(all_); }

private:
  std::string suffix_;
  std::vector<SlotInput> all_;
};

/// What a meter is wrong by, and the step of its display where that matters.
template <class Q>
struct MeterError {
  Stated<Q> error;
  Q step{};
};

template <class Q>
MeterError<Q> meter_error(const Tool<Q>& tool, const Stated<Q>& otherwise, DefaultId accuracy,
                          Q met_step, Assumptions& assumptions) {
  if (!tool.error) assumptions.use(accuracy);
  MeterError<Q> e{tool.error.value_or(otherwise), tool.step.value_or(Q{})};
  if (!tool.step && e.error.digits > 0.0) {
    assumptions.use(DefaultId::display_step);
    e.step = met_step;
  }
  return e;
}

/// Lasts as long as the sensor stays where it is: one draw for the rows of a log.
void add_probe(Inputs& inputs, const Thermometer& t, Assumptions& assumptions) {
  if (!t.each_time) assumptions.use(DefaultId::thermometer_each_time);
  const auto each = t.each_time.value_or(default_error_each_time());
  inputs.add(ErrorSlot::temperature, "thermometer/each", "thermometer, put on anew",
             {each.constant_u().si(), each.shape, each.degrees_of_freedom}, Scope::setup);
}

}  // namespace

std::vector<SlotInput> meter_inputs(const Tools& tools, Power step, const std::string& suffix,
                                    Assumptions& assumptions) {
  const auto e =
      meter_error(tools.meter, default_meter_error(), DefaultId::meter_accuracy, step, assumptions);
  Inputs inputs(suffix);
  inputs.add(ErrorSlot::meter_gain, "meter/gain", "power meter, gain", e.error.relative_u(),
             e.error);
  inputs.add(ErrorSlot::meter_offset, "meter/offset", "power meter, offset",
             e.error.constant_u().si(), e.error);
  inputs.add(ErrorSlot::meter_offset, "meter/digits", "power meter, digits",
             e.error.digits_u(e.step).si(), e.error);
  return inputs.take();
}

std::vector<SlotInput> sun_inputs(const Tools& tools, Irradiance step, Assumptions& assumptions) {
  const auto e =
      meter_error(tools.sun, default_sun_error(), DefaultId::sun_accuracy, step, assumptions);
  Inputs inputs("");
  inputs.add(ErrorSlot::sun_gain, "sun/gain", "sun meter, gain", e.error.relative_u(), e.error);
  inputs.add(ErrorSlot::sun_offset, "sun/offset", "sun meter, offset", e.error.constant_u().si(),
             e.error);
  inputs.add(ErrorSlot::sun_offset, "sun/digits", "sun meter, digits",
             e.error.digits_u(e.step).si(), e.error);
  return inputs.take();
}

std::vector<SlotInput> thermal_inputs(const Tools& tools, const PanelThermal& thermal,
                                      TemperaturePoint mean, const std::string& suffix,
                                      Assumptions& assumptions) {
  const Thermometer& t = tools.thermometer;
  if (!t.error) assumptions.use(DefaultId::thermometer_accuracy);
  if (thermal.gamma_unknown) assumptions.use(DefaultId::coefficient_unknown);
  if (thermal.gamma_from_sheet) assumptions.use(DefaultId::coefficient_sheet);
  if (thermal.cell_above_back_assumed) assumptions.use(DefaultId::cell_above_back);
  const auto error = t.error.value_or(default_thermometer_error());
  Inputs inputs(suffix);
  inputs.add(ErrorSlot::temperature, "thermometer/offset", "thermometer, offset",
             error.constant_u().si(), error);
  inputs.add(ErrorSlot::temperature, "thermometer/gain", "thermometer, gain",
             error.relative_u() * std::abs(mean.celsius()), error);
  add_probe(inputs, t, assumptions);
  inputs.add(ErrorSlot::coefficient, "coefficient", "temperature coefficient", thermal.gamma_error);
  inputs.add(ErrorSlot::cell_above_back, "cell", "cell above back", thermal.cell_above_back_error);
  return inputs.take();
}

std::vector<BudgetRow> budget_rows(const std::vector<SlotInput>& inputs,
                                   const std::array<double, error_slots>& sensitivity) {
  std::vector<BudgetRow> rows;
  for (const SlotInput& i : inputs)
    rows.push_back({i.input, sensitivity.at(static_cast<std::size_t>(i.slot))});
  return rows;
}

std::optional<BudgetInput> scatter_input(const SeriesMean& series, std::string id,
                                         std::string label) {
  if (series.count < 2) return std::nullopt;
  double u = series.sd;
  double dof = static_cast<double>(series.count) - 1.0;
  if (const auto of_mean = series.standard_u()) {
    u = *of_mean;
    dof = std::max(1.0, series.effective - 1.0);
  }
  return BudgetInput{std::move(id), std::move(label), Scope::reading, Evaluation::type_a, u,
                     dof,           Shape::normal};
}

}  // namespace hailwright
