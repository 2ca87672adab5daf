#include "evaluate/power_inputs.hpp"

#include <algorithm>
#include <cmath>

#include "evaluate/panel_thermal.hpp"
#include "hailwright/core/contract.hpp"

namespace hailwright {

double typed_step(const std::vector<double>& values) {
  for (const double step : {1.0, 0.1, 0.01}) {
    const bool fits = std::all_of(values.begin(), values.end(), [step](double v) {
      const double n = v / step;
      return std::abs(n - std::round(n)) < 1e-6 * std::max(1.0, std::abs(n));
    });
    if (fits) return step;
  }
  return 0.001;
}

Power typed_power_step(const Record& record) {
  std::vector<double> watts;
  for (const Reading& r : record.readings) {
    if (r.measured) watts.push_back(r.power.si());
  }
  return Power::from_si(typed_step(watts));
}

Irradiance typed_sun_step(const Record& record) {
  std::vector<double> w_per_m2;
  for (const Reading& r : record.readings) {
    if (r.measured) w_per_m2.push_back(r.irradiance.si());
  }
  return Irradiance::from_si(typed_step(w_per_m2));
}

std::string_view word(Redone part) {
  switch (part) {
  case Redone::mount:
    return "mount";
  case Redone::aim:
    return "aim";
  case Redone::probe:
    return "probe";
  case Redone::leads:
    return "leads";
  }
  fail_contract("unknown step of a set-up");
}

std::optional<Redone> part_of(const SetupComponent& component) {
  if (component.of) return component.of;
  for (const Redone part : all_redone) {
    if (component.name == word(part)) return part;
  }
  return std::nullopt;
}

std::optional<std::string> unstated_part(const std::vector<SetupComponent>& stated) {
  const auto has = [&](std::optional<Redone> part) {
    return std::any_of(stated.begin(), stated.end(),
                       [part](const SetupComponent& c) { return part_of(c) == part; });
  };
  if (has(std::nullopt)) return std::nullopt;
  for (const Redone part : all_redone) {
    if (part != Redone::probe && !has(part)) return std::string(word(part));
  }
  return std::nullopt;
}

namespace {

/// Finds the input of this id or makes it: one error, however many readings it touches.
std::size_t input_of(PowerModel& model, const BudgetInput& wanted) {
  for (std::size_t i = 0; i < model.inputs.size(); ++i) {
    if (model.inputs[i].id == wanted.id) return i;
  }
  model.inputs.push_back(wanted);
  return model.inputs.size() - 1;
}

BudgetInput type_b(std::string id, std::string label, Scope scope, double u,
                   double dof = std::numeric_limits<double>::infinity()) {
  return {std::move(id), std::move(label), scope, Evaluation::type_b, u, dof};
}

/// Adds the inputs that touch one reading.
class Linker {
public:
  Linker(PowerModel& model, const InputPlan& plan, const UnitSetup& unit)
      : model_(model), plan_(plan), unit_(unit), stage_(plan.test.record.setups[unit.setup].stage) {
  }

  std::vector<PowerModel::Link> links(const Reading& r) {
    links_.clear();
    meter(r);
    sun();
    thermometer(r);
    coefficient(r);
    return links_;
  }

  /// Errors of the unit itself, whatever it is: they touch the struck panel's readings, or the
  /// control's when the control alone is looked at. Returns a step that nobody stated.
  std::optional<std::string> unit_links(std::vector<PowerModel::Link>& out) {
    links_.clear();
    auto missing = setup_components();
    day();
    stage();
    out.insert(out.end(), links_.begin(), links_.end());
    return missing;
  }

private:
  void link(ErrorSlot slot, const BudgetInput& input) {
    if (input.standard_u > 0.0) links_.push_back({slot, input_of(model_, input)});
  }
  [[nodiscard]] bool after_the_shots() const {
    return stage_.kind != StageKind::before && stage_.kind != StageKind::baseline;
  }
  /// Earlier and later stage of this question.
  [[nodiscard]] std::string stage_suffix() const {
    return stage_ == plan_.question.to ? "/after" : "/before";
  }
  static std::string role_suffix(Role role) {
    return role == Role::struck ? "/struck" : "/control";
  }

  template <class Q>
  [[nodiscard]] const Tool<Q>& tool(Tool<Q> Tools::*member, std::string& changed) const {
    const auto& other = plan_.test.record.tools_after;
    if (after_the_shots() && other && ((*other).*member).origin.line != 0) {
      changed = "/other";
      return (*other).*member;
    }
    return plan_.test.protocol.tools.*member;
  }

  void meter(const Reading& r) {
    std::string id;
    const Tool<Power>& t = tool(&Tools::meter, id);
    if (plan_.test.protocol.measure.meters == 2) id += role_suffix(r.role);
    Stated<Power> error = default_meter();
    if (t.error) {
      error = *t.error;
    } else {
      plan_.assumptions.use(DefaultId::meter_accuracy);
    }
    Power step = t.step.value_or(Power{});
    if (!t.step && error.digits > 0.0) {
      plan_.assumptions.use(DefaultId::display_step);
      step = plan_.power_step;
    }
    link(ErrorSlot::meter_gain, type_b("meter/gain" + id, "power meter, gain", Scope::record,
                                       error.relative_u(), error.degrees_of_freedom));
    link(ErrorSlot::meter_offset, type_b("meter/offset" + id, "power meter, digits", Scope::record,
                                         error.absolute_u(step).si(), error.degrees_of_freedom));
    between("meter", "power meter", id, ErrorSlot::meter_gain, t.between_stages, error.shape,
            error.relative_u() * defaults::meter_between.si(), DefaultId::meter_between_stages);
  }

  void sun() {
    std::string id;
    const Tool<Irradiance>& t = tool(&Tools::sun, id);
    Stated<Irradiance> error;
    error.relative = defaults::sun_gain;
    if (t.error) {
      error = *t.error;
    } else {
      plan_.assumptions.use(DefaultId::sun_accuracy);
    }
    Irradiance step = t.step.value_or(Irradiance{});
    if (!t.step && error.digits > 0.0) {
      plan_.assumptions.use(DefaultId::display_step);
      step = plan_.sun_step;
    }
    link(ErrorSlot::sun_gain, type_b("sun/gain" + id, "sun meter, gain", Scope::record,
                                     error.relative_u(), error.degrees_of_freedom));
    link(ErrorSlot::sun_offset, type_b("sun/offset" + id, "sun meter, offset", Scope::record,
                                       error.absolute_u(step).si(), error.degrees_of_freedom));
    between("sun", "sun meter", id, ErrorSlot::sun_gain, t.between_stages, error.shape,
            error.relative_u() * defaults::sun_between.si(), DefaultId::sun_between_stages);
  }

  /// The part of a gain that is drawn anew in each stage (M3).
  void between(const std::string& name, const std::string& label, const std::string& id,
               ErrorSlot slot, std::optional<Ratio> stated, Shape shape, double default_u,
               DefaultId which) {
    double u = default_u;
    if (stated) {
      u = stated->si() / half_width_divisor(shape == Shape::normal ? Shape::rectangular : shape);
    } else {
      plan_.assumptions.use(which);
    }
    link(slot, type_b(name + "/between" + id + stage_suffix(), label + ", between the stages",
                      Scope::stage, u));
  }

  void thermometer(const Reading& r) {
    const auto& other = plan_.test.record.tools_after;
    const bool changed = after_the_shots() && other && other->thermometer.origin.line != 0;
    const Thermometer& t = changed ? other->thermometer : plan_.test.protocol.tools.thermometer;
    std::string id = changed ? "/other" : "";
    if (t.one_per_panel) id += role_suffix(r.role);
    double u = defaults::thermometer.si() / std::sqrt(3.0);
    if (t.error) {
      u = std::hypot(t.error->absolute_u(TemperatureDifference{}).si(),
                     t.error->relative_u() * r.temperature.celsius());
    } else {
      plan_.assumptions.use(DefaultId::thermometer_accuracy);
    }
    link(ErrorSlot::temperature,
         type_b("thermometer/offset" + id, "thermometer, offset", Scope::record, u));
    probe(r, t);
  }

  double probe_u(const Thermometer& t) {
    if (t.each_time) return t.each_time->absolute_u(TemperatureDifference{}).si();
    plan_.assumptions.use(DefaultId::thermometer_each_time);
    return defaults::thermometer_each_time.si() / std::sqrt(3.0);
  }

  /// Putting on or aiming the sensor: inside the observed scatter when it was redone each time;
  /// one draw a set-up when the scatter is stated; one draw a stage when it was not redone.
  void probe(const Reading& r, const Thermometer& t) {
    const bool in_scatter = plan_.source == ScatterSource::observed && was_redone(Redone::probe);
    if (in_scatter) return;
    const bool each_setup = plan_.source == ScatterSource::stated && was_redone(Redone::probe);
    const std::string place = each_setup ? "/" + unit_.name : stage_suffix();
    link(ErrorSlot::temperature,
         type_b("thermometer/each" + place + role_suffix(r.role), "thermometer, put on anew",
                each_setup ? Scope::setup : Scope::stage, probe_u(t)));
  }

  [[nodiscard]] bool was_redone(Redone part) const {
    // A single set-up a stage redoes everything between the stages by being another set-up.
    if (!plan_.redone) return true;
    return std::find(plan_.redone->begin(), plan_.redone->end(), part) != plan_.redone->end();
  }

  void coefficient(const Reading& r) {
    const PanelThermal t = panel_thermal(plan_.test, r.role);
    const std::string id = t.own_model ? "/control" : "";
    if (t.gamma_unknown) plan_.assumptions.use(DefaultId::coefficient_unknown);
    if (t.gamma_from_sheet) plan_.assumptions.use(DefaultId::coefficient_sheet);
    if (t.cell_above_back_assumed) plan_.assumptions.use(DefaultId::cell_above_back);
    link(ErrorSlot::coefficient,
         type_b("coefficient" + id, "temperature coefficient", Scope::record, t.gamma_u));
    link(ErrorSlot::cell_above_back,
         type_b("cell" + id, "cell above back", Scope::record, t.cell_above_back_u));
  }

  std::optional<std::string> setup_components() {
    const auto& stated = plan_.test.protocol.measure.setup_scatter;
    for (const SetupComponent& c : stated) {
      const std::optional<Redone> part = part_of(c);
      const bool redone = !part || was_redone(*part);
      if (redone && plan_.source == ScatterSource::observed) continue;
      const std::string place = redone ? "/" + unit_.name : stage_suffix();
      link(ErrorSlot::factor, type_b("setup/" + c.name + place, c.name,
                                     redone ? Scope::setup : Scope::stage, c.standard_u.si()));
    }
    if (plan_.source != ScatterSource::observed) return std::nullopt;
    for (const Redone part : all_redone) {
      // The probe has a stated default of its own; the other steps have none (M1).
      if (part == Redone::probe || was_redone(part)) continue;
      const bool sized = std::any_of(stated.begin(), stated.end(), [part](const SetupComponent& c) {
        return part_of(c) == part;
      });
      if (!sized) return std::string(word(part));
    }
    return std::nullopt;
  }

  [[nodiscard]] bool against_control() const {
    return plan_.question.of == PowerQuestion::Of::both;
  }

  void day() {
    if (plan_.unit_is_day) return;
    const auto& stated = plan_.test.protocol.measure.day;
    // The protocol's figure is for its own comparison; the control looked at alone takes the wide
    // one of a panel compared with itself.
    const bool alone = plan_.question.of == PowerQuestion::Of::control;
    double u = 0.0;
    if (stated && !alone) {
      u = stated->si();
    } else if (against_control()) {
      u = defaults::day_control_panel_u.si();
      plan_.assumptions.use(DefaultId::day_control_panel);
    } else {
      u = defaults::day_same_panel_u.si();
      if (!alone) plan_.assumptions.use(DefaultId::day_same_panel);
    }
    // Morning and afternoon of one date do not share a sky: each stage draws its own.
    link(ErrorSlot::factor, type_b("day" + stage_suffix() + "/" + unit_.date,
                                   "sky of a day, shared by its set-ups", Scope::day, u));
  }

  void stage() {
    if (!(stage_ == plan_.question.to) || plan_.question.of == PowerQuestion::Of::control) return;
    const MeasurementPlan& m = plan_.test.protocol.measure;
    const auto& stated = against_control() ? m.control_stability : m.stage;
    double u = 0.0;
    if (stated) {
      u = stated->si();
    } else {
      plan_.assumptions.use(against_control() ? DefaultId::control_stability
                                              : DefaultId::stage_same_panel);
      u = against_control() ? defaults::control_stability_u.si()
                            : defaults::stage_same_panel_u.si();
    }
    link(ErrorSlot::factor,
         type_b("stage", against_control() ? "control against panel, drift" : "drift of the panel",
                Scope::stage, u));
  }

  static Stated<Power> default_meter() {
    Stated<Power> s;
    s.relative = defaults::meter_gain;
    s.digits = defaults::meter_digits;
    return s;
  }

  PowerModel& model_;
  const InputPlan& plan_;
  const UnitSetup& unit_;
  StageId stage_;
  std::vector<PowerModel::Link> links_;
};

}  // namespace

std::optional<std::string> add_terms(PowerModel& model, const InputPlan& plan,
                                     const std::vector<UnitSetup>& block,
                                     const std::vector<double>& weights, double sign) {
  for (std::size_t i = 0; i < block.size(); ++i) {
    const UnitSetup& unit = block[i];
    const double weight = sign * weights[i] / static_cast<double>(unit.rounds.size());
    Linker linker(model, plan, unit);
    std::vector<PowerModel::Link> of_unit;
    if (auto missing = linker.unit_links(of_unit)) return missing;
    for (const Round& round : unit.rounds) {
      const bool alone = round.struck == nullptr;
      if (round.struck != nullptr) {
        auto links = linker.links(*round.struck);
        links.insert(links.end(), of_unit.begin(), of_unit.end());
        model.terms.push_back(
            {normalised_reading(plan.test, *round.struck), weight, std::move(links)});
      }
      if (round.control != nullptr) {
        auto links = linker.links(*round.control);
        if (alone) links.insert(links.end(), of_unit.begin(), of_unit.end());
        model.terms.push_back({normalised_reading(plan.test, *round.control),
                               alone ? weight : -weight, std::move(links)});
      }
    }
  }
  return std::nullopt;
}

}  // namespace hailwright
