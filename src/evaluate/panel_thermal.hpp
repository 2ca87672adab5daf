#pragma once

#include "hailwright/evaluate/defaults.hpp"
#include "hailwright/model/record.hpp"

namespace hailwright {

/// How a panel's power and its sensor answer to temperature: values, sizes of their errors, and
/// which defaults stand behind them.
struct PanelThermal {
  TemperatureCoefficient gamma;
  double gamma_u = 0.0;  ///< [1/K]
  bool gamma_unknown = false;
  bool gamma_from_sheet = false;
  TemperatureDifference cell_above_back;  ///< at 1000 W/m2
  double cell_above_back_u = 0.0;         ///< [K]
  bool cell_above_back_assumed = false;
  /// Panels of one model share one coefficient and one difference; others have their own.
  bool own_model = false;
};

PanelThermal panel_thermal(const Test& test, Role role);

}  // namespace hailwright
