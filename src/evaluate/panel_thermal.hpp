#pragma once

#include <limits>
#include <optional>

#include "hailwright/evaluate/defaults.hpp"
#include "hailwright/model/record.hpp"

namespace hailwright {

/// How a panel's power and its sensor answer to temperature: values, sizes of their errors, and
/// which defaults stand behind them.
struct PanelThermal {
  /// Standard deviation and shape of what is known about one of them.
  struct Error {
    double u = 0.0;
    Shape shape = Shape::rectangular;
    double degrees_of_freedom = std::numeric_limits<double>::infinity();
  };
  TemperatureCoefficient gamma;
  Error gamma_error;  ///< [1/K]
  bool gamma_unknown = false;
  bool gamma_from_sheet = false;
  TemperatureDifference cell_above_back;  ///< at 1000 W/m2
  Error cell_above_back_error;            ///< [K]
  bool cell_above_back_assumed = false;
  /// Panels of one model share one coefficient and one difference; others have their own.
  bool own_model = false;
};

/// A sibling is of the struck panel's model; a control only when the record says so.
PanelThermal panel_thermal(const Test& test, Role role);

/// The same of a panel on its own, read with this thermometer.
/// @param cell_above_back  as stated for the mounting, if it is
PanelThermal
panel_thermal(const Panel& panel, const Thermometer& thermometer,
              const std::optional<StatedValue<TemperatureDifference>>& cell_above_back);

}  // namespace hailwright
