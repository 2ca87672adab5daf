// MEASUREMENT M3: every error of an instrument is one input, of its own shape.
#include "evaluate/instrument_inputs.hpp"

#include <algorithm>
#include <cmath>

#include "support/catch.hpp"
#include "support/test_builder.hpp"

using namespace hailwright;
using hailwright::testing::TestBuilder;

namespace {

PowerModel model_of(const Test& t, PowerQuestion::Of of, Assumptions& used) {
  const bool siblings = of == PowerQuestion::Of::siblings;
  const StageId after{StageKind::after, 0};
  auto built = build_power_model(t, {siblings ? after : StageId{}, after, of},
                                 ScatterSource::observed, used);
  REQUIRE(built.model.has_value());
  return std::move(*built.model);
}

PowerModel model_of(const Test& t, PowerQuestion::Of of = PowerQuestion::Of::struck) {
  Assumptions unlisted;
  return model_of(t, of, unlisted);
}

const BudgetInput* input(const PowerModel& m, const std::string& id) {
  const auto found = std::find_if(m.inputs.begin(), m.inputs.end(),
                                  [&](const BudgetInput& i) { return i.id == id; });
  return found == m.inputs.end() ? nullptr : &*found;
}

double contribution(const PowerModel& m, const std::string& id) {
  for (const BudgetRow& row : m.budget()) {
    if (row.input.id == id) return std::abs(row.contribution());
  }
  FAIL("no input " << id);
  return 0.0;
}

/// A panel compared with itself, by a meter of "1 % + 0.3 W + 2 digits" that shows 0.1 W.
TestBuilder one_meter() {
  TestBuilder b;
  b.same_panel();
  Stated<Power> error;
  error.relative = percent(1);
  error.absolute = Power::from_si(0.3);
  error.digits = 2;
  b.test.protocol.tools.meter.error = error;
  b.test.protocol.tools.meter.step = Power::from_si(0.1);
  b.test.protocol.tools.meter.between_stages = percent(0);
  return b;
}

}  // namespace

TEST_CASE("instruments: gain, constant offset and digits are an input each") {
  const PowerModel m = model_of(one_meter().build());
  CHECK_THAT(input(m, "meter/gain")->standard_u, WithinRel(0.01 / std::sqrt(3.0), 1e-12));
  CHECK_THAT(input(m, "meter/offset")->standard_u, WithinRel(0.3 / std::sqrt(3.0), 1e-12));
  CHECK_THAT(input(m, "meter/digits")->standard_u, WithinRel(0.2 / std::sqrt(3.0), 1e-12));
  CHECK(input(m, "meter/between/after") == nullptr);
  for (const char* id : {"meter/gain", "meter/offset", "meter/digits", "sun/gain",
                         "thermometer/offset", "coefficient", "cell"}) {
    CAPTURE(id);
    REQUIRE(input(m, id) != nullptr);
    CHECK(input(m, id)->shape == Shape::rectangular);
    CHECK(input(m, id)->scope == Scope::record);
  }
}

TEST_CASE("instruments: a stated standard deviation is normal, with its degrees of freedom") {
  TestBuilder b = one_meter();
  Stated<Irradiance> sun;
  sun.shape = Shape::normal;
  sun.relative = percent(2);
  sun.degrees_of_freedom = 9.0;
  b.test.protocol.tools.sun.error = sun;
  const PowerModel m = model_of(b.build());
  CHECK(input(m, "sun/gain")->shape == Shape::normal);
  CHECK(input(m, "sun/gain")->degrees_of_freedom == 9.0);
  CHECK(input(m, "sun/gain")->standard_u == 0.02);
  CHECK(input(m, "sun/between/after")->shape == Shape::normal);
  CHECK(std::isinf(input(m, "sun/between/after")->degrees_of_freedom));
  b.test.protocol.tools.sun.between_stages = percent(0.3);
  const PowerModel stated = model_of(b.build());
  CHECK(input(stated, "sun/between/before")->shape == Shape::rectangular);
  CHECK_THAT(input(stated, "sun/between/before")->standard_u,
             WithinRel(0.003 / std::sqrt(3.0), 1e-12));
}

TEST_CASE("instruments: what is not described has the wide defaults") {
  TestBuilder b;
  b.same_panel();
  Assumptions used;
  const PowerModel m = model_of(b.build(), PowerQuestion::Of::struck, used);
  for (const DefaultId id :
       {DefaultId::meter_accuracy, DefaultId::sun_accuracy, DefaultId::thermometer_accuracy,
        DefaultId::display_step, DefaultId::meter_between_stages, DefaultId::sun_between_stages}) {
    CHECK(used.uses(id));
  }
  CHECK_THAT(input(m, "meter/gain")->standard_u, WithinRel(0.05 / std::sqrt(3.0), 1e-12));
  CHECK_THAT(input(m, "meter/digits")->standard_u, WithinRel(0.003 / std::sqrt(3.0), 1e-12));
  CHECK(input(m, "sun/digits") == nullptr);
}

// The rows of the table of defaults name the inputs that their values size.
TEST_CASE("instruments: defaults point at inputs that are there") {
  TestBuilder b;
  b.same_panel();
  Assumptions used;
  const PowerModel m = model_of(b.build(), PowerQuestion::Of::struck, used);
  for (const DefaultId id : used.used()) {
    const std::string first = std::string(default_row(id).budget);
    if (first.empty()) continue;
    CAPTURE(first);
    CHECK(std::any_of(m.inputs.begin(), m.inputs.end(), [&](const BudgetInput& i) {
      return i.id.starts_with(first.substr(0, first.find(' ')));
    }));
  }
}

TEST_CASE("instruments: one meter cancels only if it is said to be the same") {
  Test t = one_meter().build();
  CHECK(contribution(model_of(t), "meter/gain") < 1e-15);
  t.record.conditions.same_tools.reset();
  const double one = 0.01 / std::sqrt(3.0);
  const PowerModel unsaid = model_of(t);
  CHECK_THAT(contribution(unsaid, "meter/gain"), WithinRel(one, 1e-12));
  CHECK_THAT(contribution(unsaid, "meter/gain/other"), WithinRel(one, 1e-12));
  CHECK(input(unsaid, "thermometer/offset/other") != nullptr);
  // Another meter is described, and the rest said to be the same.
  t.record.conditions.same_tools = true;
  t.record.tools_after = t.protocol.tools;
  t.record.tools_after->meter.origin.line = 9;
  t.record.tools_after->meter.error->relative = percent(2);
  const PowerModel other = model_of(t);
  CHECK_THAT(contribution(other, "meter/gain/other"), WithinRel(2.0 * one, 1e-12));
  CHECK(input(other, "sun/gain/other") == nullptr);
  t.protocol.tools.meter.id = "A";
  t.record.tools_after->meter.id = "A";
  CHECK(contribution(model_of(t), "meter/gain") < 1e-15);
}

TEST_CASE("instruments: a baseline is read before the shots, with the same instruments") {
  TestBuilder b = one_meter();
  b.test.record.conditions.same_tools.reset();
  Test t = b.build();
  for (Setup& s : t.record.setups) {
    if (s.stage.kind == StageKind::after) s.stage.kind = StageKind::baseline;
  }
  Assumptions unlisted;
  const auto built = build_power_model(
      t, {{StageKind::baseline, 0}, {StageKind::before, 0}, PowerQuestion::Of::struck},
      ScatterSource::observed, unlisted);
  REQUIRE(built.model.has_value());
  CHECK(input(*built.model, "meter/gain/other") == nullptr);
}

TEST_CASE("instruments: two meters and sensors of their own stay with their panels") {
  TestBuilder b;
  b.test.protocol.measure.meters = 2;
  b.test.protocol.tools.thermometer.one_per_panel = true;
  const PowerModel m = model_of(b.build(), PowerQuestion::Of::both);
  for (const char* id : {"meter/gain/struck", "meter/gain/control", "thermometer/offset/struck",
                         "thermometer/offset/control", "sun/gain"}) {
    CAPTURE(id);
    CHECK(input(m, id) != nullptr);
  }
  TestBuilder s;
  s.siblings(3, 0.01);
  s.test.protocol.tools.thermometer.one_per_panel = true;
  const PowerModel siblings = model_of(s.build(), PowerQuestion::Of::siblings);
  CHECK(input(siblings, "thermometer/offset/U2") != nullptr);
  CHECK(contribution(siblings, "meter/gain") < 1e-15);
}

TEST_CASE("instruments: a thermometer's share of the reading is an input of its own") {
  TestBuilder b = one_meter();
  Stated<TemperatureDifference> error;
  error.absolute = TemperatureDifference::from_si(1.0);
  error.relative = percent(2);
  b.test.protocol.tools.thermometer.error = error;
  const PowerModel m = model_of(b.build());
  CHECK_THAT(input(m, "thermometer/offset")->standard_u, WithinRel(1.0 / std::sqrt(3.0), 1e-12));
  CHECK_THAT(input(m, "thermometer/gain")->standard_u, WithinRel(0.9 / std::sqrt(3.0), 1e-9));
}

// Issue check: panels of different models with unknown coefficients, cells 6.5 K apart, carry the
// difference; panels of one model do not.
TEST_CASE("instruments: a coefficient is shared within a model only") {
  TestBuilder b;
  b.test.record.control_same_model = false;
  Test t = b.build();
  for (Reading& r : t.record.readings) {
    if (t.record.setups[r.setup].stage.kind == StageKind::after)
      r.temperature = r.temperature + TemperatureDifference::from_si(6.5);
  }
  const PowerModel different = model_of(t, PowerQuestion::Of::both);
  // Of 6.5 K times 0.15 %/K over the root of 3, a little more at 0.92 of the power.
  const double carried = 6.5 * 0.0015 / std::sqrt(3.0);
  CHECK(contribution(different, "coefficient") > carried);
  CHECK(contribution(different, "coefficient/control") > carried);
  CHECK(contribution(different, "coefficient") < 1.25 * carried);
  t.record.control_same_model = true;
  const PowerModel same = model_of(t, PowerQuestion::Of::both);
  CHECK(contribution(same, "coefficient") < 1e-12);
  CHECK(input(same, "coefficient/control") == nullptr);
}

TEST_CASE("instruments: a sensor put on anew and cells above the back, stated or assumed") {
  TestBuilder b;
  b.same_panel();
  b.test.protocol.measure.redone = std::vector<Redone>{Redone::mount, Redone::aim, Redone::leads};
  Assumptions used;
  const PowerModel m = model_of(b.build(), PowerQuestion::Of::struck, used);
  CHECK(used.uses(DefaultId::thermometer_each_time));
  CHECK(used.uses(DefaultId::cell_above_back));
  Stated<TemperatureDifference> each;
  each.absolute = TemperatureDifference::from_si(0.1);
  b.test.protocol.tools.thermometer.each_time = each;
  b.test.protocol.measure.cell_above_back =
      StatedValue<TemperatureDifference>{TemperatureDifference::from_si(2.0),
                                         Shape::rectangular,
                                         TemperatureDifference::from_si(0.5),
                                         {}};
  Assumptions told;
  const PowerModel stated_model = model_of(b.build(), PowerQuestion::Of::struck, told);
  CHECK_FALSE(told.uses(DefaultId::thermometer_each_time));
  CHECK_FALSE(told.uses(DefaultId::cell_above_back));
  const std::string put_on =
      "thermometer/each/before/" + panel_name(b.test.record, PanelOf{Role::struck, 0});
  REQUIRE(input(stated_model, put_on) != nullptr);
  CHECK_THAT(input(stated_model, put_on)->standard_u, WithinRel(0.1 / std::sqrt(3.0), 1e-9));
  CHECK(input(m, put_on)->standard_u > input(stated_model, put_on)->standard_u);
}

// Found by reading: two stages after two stresses may be compared with each other.
TEST_CASE("instruments: an instrument described after the shots is one for all later stages") {
  TestBuilder b;
  b.same_panel().stage_after_stress(0, 0.0);
  b.test.record.conditions.same_tools = false;
  const PowerQuestion question{
      {StageKind::before, 0}, {StageKind::after_stress, 0}, PowerQuestion::Of::struck};
  const auto has_sun = [&](const std::string& suffix) {
    const Test t = b.build();
    Assumptions unlisted;
    const auto built = build_power_model(t, question, ScatterSource::observed, unlisted);
    REQUIRE(built.model.has_value());
    return input(*built.model, "sun/gain" + suffix) != nullptr;
  };
  CHECK(has_sun("/other/stress 1"));
  Tools other;
  other.sun.origin.line = 5;
  b.test.record.tools_after = other;
  CHECK(has_sun("/other"));
  CHECK_FALSE(has_sun("/other/stress 1"));
}
