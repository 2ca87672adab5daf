#include "evaluate/panel_thermal.hpp"

namespace hailwright {

namespace {

/// A default is a half-width.
PanelThermal::Error within(double half_width) {
  return {half_width / half_width_divisor(Shape::rectangular), Shape::rectangular};
}

template <class Q>
PanelThermal::Error error_of(const StatedValue<Q>& stated) {
  return {stated.standard_u(), stated.shape, stated.degrees_of_freedom};
}

void set_coefficient(PanelThermal& t, const Panel& panel) {
  if (panel.power_coefficient_stated) {
    t.gamma = panel.power_coefficient_stated->value;
    t.gamma_error = error_of(*panel.power_coefficient_stated);
  } else if (panel.power_coefficient) {
    t.gamma = *panel.power_coefficient;
    t.gamma_error = within(defaults::coefficient_sheet.si());
    t.gamma_from_sheet = true;
  } else {
    t.gamma = defaults::coefficient;
    t.gamma_error = within(defaults::coefficient_unknown.si());
    t.gamma_unknown = true;
  }
}

void set_cell_above_back(PanelThermal& t,
                         const std::optional<StatedValue<TemperatureDifference>>& stated) {
  t.cell_above_back = stated ? stated->value : defaults::cell_above_back;
  // A value alone says nothing of its error: the width of the default holds.
  t.cell_above_back_assumed = !stated || stated->size.si() == 0.0;
  t.cell_above_back_error =
      t.cell_above_back_assumed ? within(defaults::cell_above_back_within.si()) : error_of(*stated);
}

}  // namespace

PanelThermal
panel_thermal(const Panel& panel, const Thermometer& thermometer,
              const std::optional<StatedValue<TemperatureDifference>>& cell_above_back) {
  PanelThermal t;
  set_coefficient(t, panel);
  if (thermometer.where != SensorPlace::cell) set_cell_above_back(t, cell_above_back);
  return t;
}

PanelThermal panel_thermal(const Test& test, Role role) {
  const Record& record = test.record;
  const bool own_model = role == Role::control && !record.control_same_model;
  PanelThermal t =
      panel_thermal(own_model && record.control ? *record.control : record.panel,
                    test.protocol.tools.thermometer, test.protocol.measure.cell_above_back);
  t.own_model = own_model;
  return t;
}

}  // namespace hailwright
