#include "evaluate/panel_thermal.hpp"

#include <cmath>

#include "support/catch.hpp"
#include "support/test_builder.hpp"

using namespace hailwright;
using hailwright::testing::TestBuilder;

TEST_CASE("thermal: coefficient unknown, from the sheet, or stated with its error") {
  TestBuilder b;
  Test t = b.build();
  PanelThermal p = panel_thermal(t, Role::struck);
  CHECK(p.gamma_unknown);
  CHECK_THAT(p.gamma_error.u, WithinRel(0.0015 / std::sqrt(3.0), 1e-12));
  CHECK(p.gamma_error.shape == Shape::rectangular);
  t.record.panel.power_coefficient = TemperatureCoefficient::from_si(-0.0038);
  p = panel_thermal(t, Role::struck);
  CHECK(p.gamma_from_sheet);
  CHECK(p.gamma.si() == -0.0038);
  t.record.panel.power_coefficient_stated =
      StatedValue<TemperatureCoefficient>{TemperatureCoefficient::from_si(-0.004),
                                          Shape::normal,
                                          TemperatureCoefficient::from_si(0.0001),
                                          {}};
  p = panel_thermal(t, Role::struck);
  CHECK(p.gamma_error.u == 0.0001);
  CHECK(p.gamma_error.shape == Shape::normal);
  CHECK_FALSE(p.gamma_from_sheet);
}

TEST_CASE("thermal: a control of another model has its own") {
  TestBuilder b;
  b.test.record.control->power_coefficient = TemperatureCoefficient::from_si(-0.003);
  b.test.record.control_same_model = false;
  Test t = b.build();
  CHECK(panel_thermal(t, Role::control).own_model);
  CHECK(panel_thermal(t, Role::control).gamma.si() == -0.003);
  t.record.control_same_model = true;
  CHECK_FALSE(panel_thermal(t, Role::control).own_model);
}

TEST_CASE("thermal: a sibling is of the struck panel's model") {
  TestBuilder b;
  b.siblings(1, 0.0);
  b.test.record.panel.power_coefficient = TemperatureCoefficient::from_si(-0.0041);
  const PanelThermal p = panel_thermal(b.build(), Role::sibling);
  CHECK_FALSE(p.own_model);
  CHECK(p.gamma.si() == -0.0041);
}

TEST_CASE("thermal: a difference without a size takes the default's width") {
  TestBuilder b;
  StatedValue<TemperatureDifference> stated;
  stated.value = TemperatureDifference::from_si(2.0);
  b.test.protocol.measure.cell_above_back = stated;
  PanelThermal p = panel_thermal(b.build(), Role::struck);
  CHECK(p.cell_above_back.si() == 2.0);
  CHECK_THAT(p.cell_above_back_error.u, WithinRel(3.0 / std::sqrt(3.0), 1e-12));
  CHECK(p.cell_above_back_assumed);
  stated.size = TemperatureDifference::from_si(0.5);
  stated.shape = Shape::normal;
  stated.degrees_of_freedom = 7.0;
  b.test.protocol.measure.cell_above_back = stated;
  p = panel_thermal(b.build(), Role::struck);
  CHECK(p.cell_above_back_error.u == 0.5);
  CHECK(p.cell_above_back_error.shape == Shape::normal);
  CHECK(p.cell_above_back_error.degrees_of_freedom == 7.0);
  CHECK_FALSE(p.cell_above_back_assumed);
}

TEST_CASE("thermal: a sensor on the cell needs no difference") {
  TestBuilder b;
  b.test.protocol.tools.thermometer.where = SensorPlace::cell;
  const PanelThermal p = panel_thermal(b.build(), Role::struck);
  CHECK(p.cell_above_back.si() == 0.0);
  CHECK(p.cell_above_back_error.u == 0.0);
}

TEST_CASE("panel thermal: a control of its own model that nobody describes is as the panel") {
  Test t;
  t.record.panel.power_coefficient = TemperatureCoefficient::from_si(-0.0030);
  t.record.control_same_model = false;
  CHECK(panel_thermal(t, Role::control).gamma.si() == -0.0030);
  CHECK(panel_thermal(t, Role::control).own_model);
  t.record.control = Panel{};
  t.record.control->power_coefficient = TemperatureCoefficient::from_si(-0.0040);
  CHECK(panel_thermal(t, Role::control).gamma.si() == -0.0040);
  CHECK(panel_thermal(t, Role::struck).gamma.si() == -0.0030);
  t.record.control_same_model = true;
  CHECK(panel_thermal(t, Role::control).gamma.si() == -0.0030);
}
