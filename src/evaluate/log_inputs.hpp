#pragma once

#include <array>
#include <string>
#include <utility>
#include <vector>

#include "evaluate/panel_thermal.hpp"
#include "hailwright/evaluate/log_results.hpp"
#include "hailwright/physics/normalised_power.hpp"

namespace hailwright {

/// An error of an instrument with the place in the formula where it enters.
struct SlotInput {
  ErrorSlot slot = ErrorSlot::factor;
  BudgetInput input;
};

/// The errors of what the rows of a log were read with (MEASUREMENT M3). Each is one input that all
/// rows share. The accuracy of a meter holds for its gain at any time; the part that is drawn anew
/// from stage to stage is inside it and counts where stages are compared, not here.
/// @param suffix  ends the ids of what a second panel has of its own: "/beside"
/// @param step    of a display whose step nobody states: the finest one met in its column
std::vector<SlotInput> meter_inputs(const Tools& tools, Power step, const std::string& suffix,
                                    Assumptions& assumptions);
std::vector<SlotInput> sun_inputs(const Tools& tools, Irradiance step, Assumptions& assumptions);
/// Thermometer, and coefficient and cell-to-back difference of the panel.
/// @param mean  of the temperature
std::vector<SlotInput> thermal_inputs(const Tools& tools, const PanelThermal& thermal,
                                      TemperaturePoint mean, const std::string& suffix,
                                      Assumptions& assumptions);

/// Rows of a budget: each input with the sensitivity of its slot.
std::vector<BudgetRow> budget_rows(const std::vector<SlotInput>& inputs,
                                   const std::array<double, error_slots>& sensitivity);

/// Scatter of a mean over rows or windows: its standard uncertainty in the mean's unit, with n_eff
/// - 1 degrees of freedom, 1 at least. M2 takes n - 1; with rows that follow each other that is too
/// many: of 60 readings with an autocorrelation of 0.9 the 95 % interval then covers 79 %, with
/// n_eff - 1 85 % (1500 trials of an autoregressive series of the first order). Fewer than 20 are
/// worth one independent reading, whose scatter is that of the rows (M2). Nothing for fewer than
/// two.
std::optional<BudgetInput> scatter_input(const SeriesMean& series, std::string id,
                                         std::string label);

/// A number with its budget, and the uncertainty that follows from it.
template <class Q>
LogNumber<Q> log_number(double value, std::vector<BudgetRow> budget,
                        LogScatter scatter = LogScatter::none) {
  const Combined all = combine(budget);
  return {{Q::from_si(value), Q::from_si(all.standard_u), all.degrees_of_freedom},
          std::move(budget),
          scatter};
}

}  // namespace hailwright
