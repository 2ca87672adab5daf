#pragma once

#include <optional>
#include <vector>

#include "hailwright/core/quantity.hpp"
#include "hailwright/evaluate/defaults.hpp"
#include "hailwright/logs/log_analysis.hpp"
#include "hailwright/logs/log_pairing.hpp"
#include "hailwright/metrology/budget.hpp"
#include "hailwright/metrology/estimate.hpp"
#include "hailwright/model/panel.hpp"
#include "hailwright/model/protocol.hpp"

namespace hailwright {

/// What is known of the instruments and of the panel behind a log. What is not there takes the
/// stated defaults (docs/defaults.md), which come back as assumptions.
struct LogInstruments {
  const Tools* tools = nullptr;
  const Panel* panel = nullptr;
  const Panel* panel_beside = nullptr;
  /// The temperature sensor's difference from the cell; nothing: from the panel or the default.
  std::optional<StatedValue<TemperatureDifference>> cell_above_back;
};

/// What the uncertainty of a result holds of the scatter of its rows.
enum class LogScatter {
  none,         ///< an integral: that the power changed is the result, not an error of it
  effective,    ///< that of the mean, by the effective number of rows (M2)
  one_reading,  ///< fewer than 20 rows: worth one independent reading (M2)
  not_known     ///< fewer than two: it is not in the uncertainty
};

/// A result with its budget: every error of an instrument is one input that all rows share.
template <class Q>
struct LogNumber {
  Estimate<Q> estimate;
  std::vector<BudgetRow> budget;  ///< sensitivities in SI of the result
  LogScatter scatter = LogScatter::none;
  /// Half of the 95 % interval: the larger one of t by all degrees of freedom and of the scatter
  /// alone by its own (M2).
  [[nodiscard]] Q half_width() const;
};

/// As `LogNumber::half_width`, in SI.
double half_width_of(double standard_u, double degrees_of_freedom,
                     const std::vector<BudgetRow>& budget);

template <class Q>
Q LogNumber<Q>::half_width() const {
  return Q::from_si(half_width_of(estimate.standard_u.si(), estimate.degrees_of_freedom, budget));
}

/// What a stretch came to, with uncertainties.
struct StretchNumbers {
  std::optional<LogNumber<Energy>> energy;  ///< nothing without bridged time
  std::optional<LogNumber<Power>> mean_power;
  std::optional<LogNumber<Power>> normalised;  ///< at 1000 W/m2 and 25 degC
  std::optional<LogNumber<Power>> normalised_beside;
  std::optional<LogNumber<Ratio>> ratio;  ///< second panel over first, as logged
  /// Counter less integral over the same time, as a share of the integral; nothing where not both
  /// are there. Both come from one meter, so its gain and offset are not in the uncertainty: that
  /// holds the step of the counter, the step of the power column, and what the power did between
  /// the rows as far as their scatter shows it.
  std::optional<Estimate<Ratio>> counter_less_integral;
};

struct LogResults {
  StretchNumbers whole;
  std::vector<StretchNumbers> stretches;  ///< as `LogFindings::stretches`
  Assumptions assumptions;
};

/// How the temperature coefficient and the cell's temperature enter the rows of a log.
/// Nothing without a panel: its coefficient is not guessed for a normalised power on its own.
std::optional<LogNormalisation> log_normalisation(const LogInstruments& known);

/// The uncertainty of what a log came to (MEASUREMENT M1 to M3): errors of the instruments shared
/// by all rows, scatter of the rows by their effective number.
/// @param offset  of the second log's clock, when it was looked for: what is left of its error
///                bears on the ratio by `RatioMean::slope_per_s`
LogResults weigh_log(const LogFindings& findings, const LogInstruments& known,
                     const std::optional<ClockOffset>& offset);

}  // namespace hailwright
