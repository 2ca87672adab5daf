#pragma once

#include <array>
#include <cstddef>
#include <cstdint>
#include <optional>
#include <string>
#include <vector>

#include "hailwright/core/quantity.hpp"
#include "hailwright/logs/log_block.hpp"

namespace hailwright {

/// When a piece of a log counts as steady. A piece is a window of so many seconds, counted from the
/// beginning of its stretch; it is kept whole or removed whole. The first test that it fails is the
/// reason that is counted: a broken log, irradiance, ramp, temperature. The last window of a
/// stretch counts when it is at least half a window long; shorter, it is counted as broken.
struct SteadyRule {
  Time window = Time::from_si(60.0);               ///< [ours]
  Ratio irradiance_change = Ratio::from_si(0.02);  ///< (largest - smallest) / mean; M9
  /// From the window's first third to its last, by the mean: a slow drift. [ours]
  Ratio ramp = Ratio::from_si(0.01);
  TemperatureDifference temperature_change = TemperatureDifference::from_si(1.0);  ///< M9
};

/// What is taken to compute a normalised power from a row (physics/normalised_power.hpp).
struct LogNormalisation {
  TemperatureCoefficient gamma;
  TemperatureDifference cell_above_back;  ///< at 1000 W/m2
  /// Rows below it have none [ours]; nor have those with less power than `StretchRules::load_on`.
  Irradiance least_irradiance = Irradiance::from_si(200.0);
};

/// By what rules a stretch is measured.
struct StretchRules {
  Time longest_gap;                  ///< a longer step in time is not bridged
  std::optional<SteadyRule> steady;  ///< none: nothing is removed
  std::optional<LogNormalisation> normalise;
  std::optional<Energy>
      counter_wraps_at;  ///< the counter begins anew at 0 there; none: it never does
  /// A panel gives power from here on. [W]
  Power load_on = Power::from_si(1.0);  ///< [ours]
};

/// The longest step in time that is bridged unless it is stated: five usual steps, from 10 s to
/// 15 min. A logger that misses a few rows is still bridged, one that was off is not. [ours]
Time usual_longest_gap(double usual_step_s);

/// A step in time that was not bridged: from a row with a power to the next one, or from row to row
/// where a log has no power.
struct LogGap {
  std::int64_t from_us = 0, to_us = 0;
  std::size_t file = 0;
  std::int64_t line = 0;  ///< of the row after it
  [[nodiscard]] double seconds() const { return static_cast<double>(to_us - from_us) * 1e-6; }
};

/// Rows of a quantity: blank cells do not count.
struct ColumnSums {
  std::int64_t count = 0;
  double mean = 0.0;  ///< over the rows
  double least = 0.0, most = 0.0;
};

/// How many rows the steady rule removed, by the reason.
struct SteadyTally {
  std::int64_t rows_kept = 0;
  std::int64_t rows_irradiance = 0;   ///< irradiance changed
  std::int64_t rows_ramp = 0;         ///< irradiance drifted
  std::int64_t rows_temperature = 0;  ///< temperature changed
  std::int64_t rows_broken = 0;       ///< a window with a gap, too few rows, or without irradiance
};

/// A counter of energy over a stretch.
struct CounterReading {
  Energy counted{};  ///< all increases
  /// Falls to less than half of what it showed [ours] that are no wrap-around; what it shows after
  /// one counts from 0 and is in `counted`.
  std::int64_t resets = 0;
  std::int64_t steps_back = 0;  ///< smaller falls; nothing is counted for them
  Energy stepped_back{};        ///< together
  /// Falls where `counter_wraps_at` is stated and less than half of the range lies in the step
  /// over it [ours].
  std::int64_t wraps = 0;
  std::int64_t rows = 0;
  double step_j = 0.0;       ///< smallest increase met above 0 [J]; 0: none
  bool across_gaps = false;  ///< some of it was counted in gaps that the integral does not bridge
  Energy in_gaps{};          ///< that part
};

/// A value whose rows follow each other in time.
struct SeriesMean {
  std::int64_t count = 0;
  double mean = 0.0;
  double sd = 0.0;    ///< of one row; 0 for fewer than two
  double lag1 = 0.0;  ///< autocorrelation of neighbours, over steps that are no gaps
  /// Independent readings that the mean is worth (M2): 1 for fewer than 20 rows, or fewer than 19
  /// pairs of neighbours.
  double effective = 0.0;
  /// Standard uncertainty of the mean from this scatter; nothing for fewer than 20 rows, where M2
  /// takes one independent reading.
  [[nodiscard]] std::optional<double> standard_u() const;
};

/// Power that stays flat while irradiance rises: the load, not the panel, sets it.
struct LogClipping {
  Power level;          ///< at which it stays
  Irradiance from, to;  ///< where irradiance rises
  std::int64_t rows = 0;
};

/// The ratio of two panels logged together: second over first.
struct RatioMean {
  SeriesMean windows;        ///< of ln ratio by windows of a minute in which both give power
  double ratio = 0.0;        ///< exp of the mean
  Energy first{}, second{};  ///< over the rows where both are there
  /// Change of ln ratio per second that is added to the second log's stamps: mean over the windows
  /// of -(P2(end) - P2(begin)) / E2 [1/s].
  double slope_per_s = 0.0;
};

/// A row as it enters a record.
struct LogRow {
  std::int64_t time_us = 0;
  std::size_t file = 0;
  std::int64_t line = 0;
  double power = 0.0, irradiance = 0.0, temperature = 0.0;  ///< [W], [W/m2], [K]; NaN: blank
  double power_beside = 0.0, temperature_beside = 0.0;
  /// Why the steady rule removed it; empty when it did not.
  std::string_view removed;
};

/// What a stretch of a log came to.
struct LogStretch {
  std::string name;  ///< "before 1", "morning"; may be empty
  std::int64_t rows = 0;
  std::int64_t from_us = 0, to_us = 0;  ///< of its first and last row
  double bridged_s = 0.0;               ///< time that the integral covers
  Energy energy{};                      ///< of power over time by the trapezoid rule, gaps left out
  Energy energy_beside{};
  std::optional<Power> mean_power;  ///< energy / bridged time; none without bridged time
  /// Of the kept rows alone when there is a steady rule.
  ColumnSums power, irradiance, temperature, power_beside, temperature_beside;
  std::int64_t gaps = 0;
  double in_gaps_s = 0.0;
  std::vector<LogGap> longest_gaps;  ///< at most 10, longest first
  std::optional<SteadyTally> steady;
  std::optional<CounterReading> counter;
  SeriesMean power_series;               ///< of the kept rows
  std::optional<SeriesMean> normalised;  ///< normalised power [W] of the kept rows
  std::optional<SeriesMean> normalised_beside;
  std::optional<LogClipping> clipping, clipping_beside;
  std::optional<RatioMean> beside;
  std::vector<LogRow> kept;  ///< when asked for
};

}  // namespace hailwright
