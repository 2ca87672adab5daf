#include "evaluate/panel_thermal.hpp"

#include <cmath>

namespace hailwright {

PanelThermal panel_thermal(const Test& test, Role role) {
  const Record& record = test.record;
  const bool own_model = role == Role::control && !record.control_same_model;
  const Panel& panel = own_model && record.control ? *record.control : record.panel;
  PanelThermal t;
  t.own_model = own_model;
  if (panel.power_coefficient_stated) {
    t.gamma = panel.power_coefficient_stated->value;
    t.gamma_u = panel.power_coefficient_stated->standard_u();
  } else if (panel.power_coefficient) {
    t.gamma = *panel.power_coefficient;
    t.gamma_u = defaults::coefficient_sheet.si() / std::sqrt(3.0);
    t.gamma_from_sheet = true;
  } else {
    t.gamma = defaults::coefficient;
    t.gamma_u = defaults::coefficient_unknown.si() / std::sqrt(3.0);
    t.gamma_unknown = true;
  }
  const auto& stated = test.protocol.measure.cell_above_back;
  if (test.protocol.tools.thermometer.where == SensorPlace::cell) return t;
  if (stated) {
    t.cell_above_back = stated->value;
    t.cell_above_back_u = stated->standard_u();
    // A value alone says nothing of its error: the width of the default holds.
    if (stated->size.si() == 0.0) {
      t.cell_above_back_u = defaults::cell_above_back_within.si() / std::sqrt(3.0);
      t.cell_above_back_assumed = true;
    }
  } else {
    t.cell_above_back = defaults::cell_above_back;
    t.cell_above_back_u = defaults::cell_above_back_within.si() / std::sqrt(3.0);
    t.cell_above_back_assumed = true;
  }
  return t;
}

}  // namespace hailwright
