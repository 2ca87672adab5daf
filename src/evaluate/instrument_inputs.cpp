#include "evaluate/instrument_inputs.hpp"

#include <cmath>

#include "evaluate/panel_thermal.hpp"
#include "evaluate/same_tools.hpp"

namespace hailwright {

Stated<Power> default_meter_error() {
  Stated<Power> s;
  s.relative = defaults::meter_gain;
  s.digits = defaults::meter_digits;
  return s;
}

Stated<Irradiance> default_sun_error() {
  Stated<Irradiance> s;
  s.relative = defaults::sun_gain;
  return s;
}

Stated<TemperatureDifference> default_thermometer_error() {
  Stated<TemperatureDifference> s;
  s.absolute = defaults::thermometer;
  return s;
}

Stated<TemperatureDifference> default_error_each_time() {
  Stated<TemperatureDifference> s;
  s.absolute = defaults::thermometer_each_time;
  return s;
}

namespace {

/// What one kind of meter is called in a budget, and what is taken when nobody describes it.
template <class Q>
struct MeterKind {
  Instrument which{};
  Tool<Q> Tools::*member = nullptr;
  const char* id = "";
  const char* label = "";
  ErrorSlot gain{}, offset{};
  Stated<Q> error;
  DefaultId accuracy{};
  Ratio between;
  DefaultId between_stages{};
};

const MeterKind<Power>& power_meter() {
  static const MeterKind<Power> kind{Instrument::meter,
                                     &Tools::meter,
                                     "meter",
                                     "power meter",
                                     ErrorSlot::meter_gain,
                                     ErrorSlot::meter_offset,
                                     default_meter_error(),
                                     DefaultId::meter_accuracy,
                                     defaults::meter_between,
                                     DefaultId::meter_between_stages};
  return kind;
}

const MeterKind<Irradiance>& sun_meter() {
  static const MeterKind<Irradiance> kind{Instrument::sun,
                                          &Tools::sun,
                                          "sun",
                                          "sun meter",
                                          ErrorSlot::sun_gain,
                                          ErrorSlot::sun_offset,
                                          default_sun_error(),
                                          DefaultId::sun_accuracy,
                                          defaults::sun_between,
                                          DefaultId::sun_between_stages};
  return kind;
}

class InstrumentLinker {
public:
  InstrumentLinker(InputLinks& links, const InputPlan& plan, const UnitSetup& unit,
                   const Reading& first)
      : links_(links), plan_(plan), unit_(unit), reading_(first) {}

  void link() {
    // Of two power meters each stays with its panel; the sun meter and the thermometer serve both.
    const std::string role = "/" + panel_kind();
    meter(power_meter(), plan_.power_step, plan_.test.protocol.measure.meters == 2 ? role : "");
    meter(sun_meter(), plan_.sun_step, "");
    thermometer();
    coefficient();
  }

private:
  [[nodiscard]] bool after_the_shots() const {
    const StageKind kind = plan_.test.record.setups[unit_.setup].stage.kind;
    return kind != StageKind::before && kind != StageKind::baseline;
  }
  [[nodiscard]] std::string panel() const {
    return panel_name(plan_.test.record, panel_of(reading_));
  }
  [[nodiscard]] std::string panel_kind() const {
    return reading_.role == Role::sibling ? "siblings" : panel();
  }
  /// Another instrument than before the shots.
  [[nodiscard]] bool is_other(Instrument which) const {
    return after_the_shots() && !same_tool_said(plan_.test, which);
  }
  /// What sets the inputs of another instrument apart. Of one that nobody described, each stage
  /// after a stress is taken to have had another one still: two stages after the first may be
  /// compared with each other there.
  [[nodiscard]] std::string other_suffix(Instrument which) const {
    if (!is_other(which)) return {};
    const StageId stage = plan_.test.record.setups[unit_.setup].stage;
    const bool own =
        stage.kind == StageKind::after_stress && !described_after(plan_.test.record, which);
    return own ? "/other/stress " + std::to_string(stage.series + 1) : "/other";
  }
  /// The tools that describe an instrument as it was in this stage.
  [[nodiscard]] const Tools& tools(Instrument which) const {
    const bool described = is_other(which) && described_after(plan_.test.record, which);
    return described ? *plan_.test.record.tools_after : plan_.test.protocol.tools;
  }

  template <class Q>
  void meter(const MeterKind<Q>& kind, Q typed_step, const std::string& own) {
    const std::string suffix = other_suffix(kind.which) + own;
    const Tool<Q>& tool = tools(kind.which).*kind.member;
    if (!tool.error) plan_.assumptions.use(kind.accuracy);
    const Stated<Q> error = tool.error.value_or(kind.error);
    Q step = tool.step.value_or(Q{});
    if (!tool.step && error.digits > 0.0) {
      plan_.assumptions.use(DefaultId::display_step);
      step = typed_step;
    }
    const auto add = [&](ErrorSlot slot, const char* part, double u) {
      links_.add(slot, type_b(std::string(kind.id) + "/" + part + suffix,
                              std::string(kind.label) + ", " + part, Scope::record, u, error.shape,
                              error.degrees_of_freedom));
    };
    add(kind.gain, "gain", error.relative_u());
    add(kind.offset, "offset", error.constant_u().si());
    add(kind.offset, "digits", error.digits_u(step).si());
    between(kind, suffix, tool.between_stages, error);
  }

  /// The part of a gain that is drawn anew in each stage (M3).
  template <class Q>
  void between(const MeterKind<Q>& kind, const std::string& suffix,
               const std::optional<Ratio>& stated, const Stated<Q>& error) {
    Shape shape = error.shape;
    double u = error.relative_u() * kind.between.si();
    if (stated) {
      // A share of the reading that somebody states is a bound, whatever the gain is.
      if (shape == Shape::normal) shape = Shape::rectangular;
      u = stated->si() / half_width_divisor(shape);
    } else {
      plan_.assumptions.use(kind.between_stages);
    }
    links_.add(kind.gain,
               type_b(std::string(kind.id) + "/between" + suffix + plan_.stage_suffix(unit_),
                      std::string(kind.label) + ", between the stages", Scope::stage, u, shape));
  }

  void thermometer() {
    const Thermometer& t = tools(Instrument::thermometer).thermometer;
    std::string suffix = other_suffix(Instrument::thermometer);
    if (t.one_per_panel) suffix += "/" + panel();
    Stated<TemperatureDifference> error = default_thermometer_error();
    if (t.error) {
      error = *t.error;
    } else {
      plan_.assumptions.use(DefaultId::thermometer_accuracy);
    }
    const auto add = [&](const char* part, double u) {
      links_.add(ErrorSlot::temperature, type_b(std::string("thermometer/") + part + suffix,
                                                std::string("thermometer, ") + part, Scope::record,
                                                u, error.shape, error.degrees_of_freedom));
    };
    add("offset", error.constant_u().si());
    // The first reading's temperature stands for all: how the share changes with a few kelvin is
    // beneath notice.
    add("gain", error.relative_u() * std::abs(reading_.temperature.celsius()));
    probe(t);
  }

  /// Putting on or aiming the sensor: inside the observed scatter when it was redone each time;
  /// one draw a set-up when the scatter is stated; one draw a stage when it was not redone.
  void probe(const Thermometer& t) {
    if (plan_.siblings && plan_.siblings->spread_observed) return;
    const bool redone = plan_.was_redone(Redone::probe);
    if (redone && plan_.source == ScatterSource::observed) return;
    Stated<TemperatureDifference> error = default_error_each_time();
    if (t.each_time) {
      error = *t.each_time;
    } else {
      plan_.assumptions.use(DefaultId::thermometer_each_time);
    }
    const std::string place = redone ? "/" + unit_.name : plan_.stage_suffix(unit_);
    links_.add(ErrorSlot::temperature,
               type_b("thermometer/each" + place + "/" + panel(), "thermometer, put on anew",
                      redone ? Scope::setup : Scope::stage, error.constant_u().si(), error.shape,
                      error.degrees_of_freedom));
  }

  void coefficient() {
    const PanelThermal t = panel_thermal(plan_.test, reading_.role);
    const std::string suffix = t.own_model ? "/control" : "";
    if (t.gamma_unknown) plan_.assumptions.use(DefaultId::coefficient_unknown);
    if (t.gamma_from_sheet) plan_.assumptions.use(DefaultId::coefficient_sheet);
    if (t.cell_above_back_assumed) plan_.assumptions.use(DefaultId::cell_above_back);
    const auto add = [&](ErrorSlot slot, const char* id, const char* label,
                         const PanelThermal::Error& e) {
      links_.add(slot,
                 type_b(id + suffix, label, Scope::record, e.u, e.shape, e.degrees_of_freedom));
    };
    add(ErrorSlot::coefficient, "coefficient", "temperature coefficient", t.gamma_error);
    add(ErrorSlot::cell_above_back, "cell", "cell above back", t.cell_above_back_error);
  }

  InputLinks& links_;
  const InputPlan& plan_;
  const UnitSetup& unit_;
  const Reading& reading_;
};

}  // namespace

void link_instruments(InputLinks& links, const InputPlan& plan, const UnitSetup& unit,
                      const Reading& first) {
  InstrumentLinker(links, plan, unit, first).link();
}

}  // namespace hailwright
