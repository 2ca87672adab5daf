#include "support/drawn_test.hpp"

#include <cmath>

#include "hailwright/metrology/random.hpp"
#include "support/test_builder.hpp"

namespace hailwright::testing {

namespace {

/// Of an error: whichever is largest, the others are often beneath notice.
double error_size(Draw& draw, const std::string& name, double largest) {
  return draw.magnitude(name, 1e-3 * largest, largest);
}

void state_meters(Draw& draw, Tools& tools, bool proportional) {
  Stated<Power> power;
  power.relative = percent(error_size(draw, "meter gain [%]", 5.0));
  power.absolute = Power::from_si(proportional ? 0.0 : error_size(draw, "meter offset [W]", 0.5));
  power.digits = proportional ? 0.0 : error_size(draw, "meter digits", 5.0);
  tools.meter.error = power;
  tools.meter.step = Power::from_si(0.01);
  tools.meter.between_stages = percent(error_size(draw, "meter between stages [%]", 1.0));
  Stated<Irradiance> sun;
  sun.relative = percent(error_size(draw, "sun gain [%]", 10.0));
  sun.absolute = Irradiance::from_si(error_size(draw, "sun offset [W/m2]", 5.0));
  sun.digits = error_size(draw, "sun digits", 3.0);
  tools.sun.error = sun;
  tools.sun.step = Irradiance::from_si(1.0);
  tools.sun.between_stages = percent(error_size(draw, "sun between stages [%]", 1.0));
}

void state_temperatures(Draw& draw, Test& test) {
  Stated<TemperatureDifference> offset, each;
  offset.absolute = TemperatureDifference::from_si(error_size(draw, "thermometer [K]", 4.0));
  each.absolute =
      TemperatureDifference::from_si(error_size(draw, "thermometer each time [K]", 2.0));
  test.protocol.tools.thermometer.error = offset;
  test.protocol.tools.thermometer.each_time = each;
  StatedValue<TemperatureCoefficient> gamma;
  gamma.value = TemperatureCoefficient::from_si(draw.number("coefficient [1/K]", -0.005, -0.002));
  gamma.size = TemperatureCoefficient::from_si(draw.number("its error [1/K]", 1e-5, 1e-3));
  test.record.panel.power_coefficient_stated = gamma;
  StatedValue<TemperatureDifference> above;
  above.value = TemperatureDifference::from_si(draw.number("cell above back [K]", 0.0, 6.0));
  above.size = TemperatureDifference::from_si(error_size(draw, "its error [K]", 3.0));
  test.protocol.measure.cell_above_back = above;
}

void state_times(Draw& draw, MeasurementPlan& measure) {
  measure.day = percent(error_size(draw, "day [%]", 1.5));
  measure.stage = percent(error_size(draw, "drift [%]", 1.0));
  measure.control_stability = percent(error_size(draw, "control stability [%]", 1.0));
}

void state_setups(Draw& draw, MeasurementPlan& measure, bool few_degrees_of_freedom) {
  for (const Redone part : all_redone) {
    SetupComponent component;
    component.name = "part " + std::to_string(measure.setup_scatter.size() + 1);
    component.of = part;
    component.standard_u = percent(error_size(draw, component.name + " [%]", 1.0));
    if (few_degrees_of_freedom) {
      component.degrees_of_freedom =
          draw.one_of<double>(component.name + ", degrees of freedom", {100, 20, 5, 2});
    }
    measure.setup_scatter.push_back(component);
  }
}

/// Powers that a panel would show, all errors but scatter zero.
class Nature {
public:
  Nature(Draw& draw, Test& test)
      : test_(test), random_(draw.bits("noise")), loss_(draw.number("loss", 0.0, 0.3)),
        setup_sd_(draw.magnitude("set-up scatter", 1e-4, 0.02)),
        reading_sd_(draw.magnitude("reading scatter", 1e-5, 0.005)),
        sun_(draw.number("sun [W/m2]", 650.0, 1000.0)),
        back_c_(draw.number("back [degC]", 15.0, 60.0)) {}

  void show() {
    std::vector<double> deviation(test_.record.setups.size());
    for (double& d : deviation)
      d = setup_sd_ * random_.normal();
    for (std::size_t i = 0; i < test_.record.readings.size(); ++i) {
      Reading& r = test_.record.readings[i];
      // Two panels read in one round have one sun.
      if (r.role == Role::struck) around_ = sun_ * (1.0 + 0.01 * (2.0 * random_.uniform() - 1.0));
      r.irradiance = Irradiance::from_si(around_);
      r.temperature = TemperaturePoint::from_celsius(back_c_ + random_.uniform());
      const bool struck = r.role == Role::struck;
      const bool after = test_.record.setups[r.setup].stage.kind == StageKind::after;
      const double factor =
          struck ? std::exp(deviation[r.setup]) * (after ? 1.0 - loss_ : 1.0) : 1.0;
      r.power = Power::from_si(80.0 * around_ / 1000.0 * factor *
                               std::exp(reading_sd_ * random_.normal()));
    }
  }

private:
  Test& test_;
  RandomStream random_;
  double loss_, setup_sd_, reading_sd_, sun_, back_c_;
  double around_ = 1000.0;
};

/// Half of the set-ups of each stage on another day.
void spread_over_days(Record& record) {
  for (Setup& s : record.setups) {
    if (s.number % 2 == 0) s.date = s.stage.kind == StageKind::before ? "2026-06-13" : "2026-06-15";
  }
}

}  // namespace

Test drawn_test(Draw& draw, const DrawnKind& kind) {
  TestBuilder builder;
  if (kind.compare == Comparison::same_panel) builder.same_panel();
  if (kind.stated) {
    builder.setups(1, 1);
  } else {
    const int before = draw.whole("set-ups before", 3, 5);
    builder.setups(before, draw.whole("set-ups after", 3, 5));
  }
  Test test = builder.rounds(draw.whole("rounds", 2, 5)).build();
  test.protocol.decide.limit = percent(draw.number("limit [%]", 1.0, 10.0));
  state_meters(draw, test.protocol.tools, kind.proportional);
  state_temperatures(draw, test);
  state_times(draw, test.protocol.measure);
  if (kind.stated) state_setups(draw, test.protocol.measure, kind.few_degrees_of_freedom);
  Nature(draw, test).show();
  if (!kind.stated && draw.coin("two days a stage")) spread_over_days(test.record);
  return test;
}

DrawnKind drawn_kind(Draw& draw) {
  DrawnKind kind;
  if (draw.coin("with a control")) kind.compare = Comparison::control_panel;
  kind.stated = draw.coin("stated scatter");
  return kind;
}

std::vector<std::size_t> readings_of(const Test& test, StageKind stage) {
  std::vector<std::size_t> found;
  for (std::size_t i = 0; i < test.record.readings.size(); ++i) {
    if (test.record.setups[test.record.readings[i].setup].stage.kind == stage) found.push_back(i);
  }
  return found;
}

void multiply(Reading& reading, double factor) {
  reading.power = factor * reading.power;
}

PowerResult judged_briefly(const Test& test) {
  Assumptions unlisted;
  PowerResult result = judge_power(test, {StageKind::after, 0}, unlisted, std::nullopt,
                                   {StageKind::before, 0}, Extent::verdicts);
  must(result.estimated(), "the power can be judged");
  return result;
}

std::vector<Growing> stated_errors() {
  const auto tool = [](const char* name, auto member) {
    return Growing{name, [member](Test& t, double k) { member(t.protocol.tools, k); }};
  };
  const auto measure = [](const char* name, std::optional<Ratio> MeasurementPlan::*u) {
    return Growing{name, [u](Test& t, double k) {
                     auto& stated = t.protocol.measure.*u;
                     stated = k * *stated;
                   }};
  };
  return {
      tool("meter gain",
           [](Tools& t, double k) { t.meter.error->relative = k * t.meter.error->relative; }),
      tool("meter offset",
           [](Tools& t, double k) { t.meter.error->absolute = k * t.meter.error->absolute; }),
      tool("meter digits", [](Tools& t, double k) { t.meter.error->digits *= k; }),
      tool("meter between stages",
           [](Tools& t, double k) { t.meter.between_stages = k * *t.meter.between_stages; }),
      tool("sun gain",
           [](Tools& t, double k) { t.sun.error->relative = k * t.sun.error->relative; }),
      tool("sun offset",
           [](Tools& t, double k) { t.sun.error->absolute = k * t.sun.error->absolute; }),
      tool("sun digits", [](Tools& t, double k) { t.sun.error->digits *= k; }),
      tool("sun between stages",
           [](Tools& t, double k) { t.sun.between_stages = k * *t.sun.between_stages; }),
      tool("thermometer",
           [](Tools& t, double k) {
             t.thermometer.error->absolute = k * t.thermometer.error->absolute;
           }),
      tool("thermometer each time",
           [](Tools& t, double k) {
             t.thermometer.each_time->absolute = k * t.thermometer.each_time->absolute;
           }),
      {"coefficient",
       [](Test& t, double k) {
         t.record.panel.power_coefficient_stated->size =
             k * t.record.panel.power_coefficient_stated->size;
       }},
      {"cell above back",
       [](Test& t, double k) {
         t.protocol.measure.cell_above_back->size = k * t.protocol.measure.cell_above_back->size;
       }},
      measure("day", &MeasurementPlan::day),
      measure("drift", &MeasurementPlan::stage),
      measure("control stability", &MeasurementPlan::control_stability),
      {"stated set-up scatter",
       [](Test& t, double k) {
         for (SetupComponent& c : t.protocol.measure.setup_scatter)
           c.standard_u = k * c.standard_u;
       }},
  };
}

}  // namespace hailwright::testing
