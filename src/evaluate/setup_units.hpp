#pragma once

#include <optional>
#include <string>
#include <vector>

#include "evaluate/setup_rounds.hpp"
#include "hailwright/evaluate/power_model.hpp"

namespace hailwright {

struct WeighedReading {
  const Reading* reading = nullptr;
  std::size_t panel = 0;  ///< index into the panels of its set-up
  double weight = 0.0;
};

/// One set-up as a unit of a comparison.
struct UnitSetup {
  std::size_t setup = 0;
  std::string name;
  std::string date;
  std::vector<PanelOf> panels;   ///< read together in it
  std::vector<double> contrast;  ///< by panel: the value is so much of its mean, all added
  std::vector<Round> rounds;
  std::vector<double> values;            ///< by round: the contrast of its readings
  std::vector<WeighedReading> readings;  ///< the value is the sum of weight times q
  std::vector<double> means;             ///< by panel: of q
  double value = 0.0;
  /// Of the rounds, with its degrees of freedom; where a drift was taken out, of single readings
  /// about it. Nothing for one round.
  std::optional<double> reading_sd;
  double reading_dof = 0.0;
  std::optional<double> drift_per_hour;  ///< of q, taken out; nothing where times are not known
  /// Standard deviation of the value over that of one round (or reading), all of them independent.
  double reading_share = 1.0;
};

struct StageBlocks {
  std::vector<UnitSetup> from, to, baseline;
  std::optional<std::string> unpaired;  ///< name of a set-up without one complete round
};

bool has_setups(const Record& record, StageId stage);

/// The set-ups of both stages and of the baseline with the readings that count. Set-ups without any
/// are left out.
StageBlocks collect_stage_blocks(const Test& test, const PowerQuestion& question);

/// A set-up of these rounds, which hold a reading of each panel each.
///
/// Panels read at once give the plain mean of the rounds, whose errors they share. Panels read in
/// turn with one meter (`meters: 1`) give means beside a straight line in time (MEASUREMENT M8)
/// where each has two readings or more and it is known when they were read: by their times; or, in
/// a set-up with neither times for all nor rounds, by the order of the rows. Readings that share a
/// round and have no times are taken as read at once. Else the plain mean.
UnitSetup make_unit(const Test& test, std::size_t setup, std::vector<PanelOf> panels,
                    std::vector<double> contrast, std::vector<Round> rounds);

/// Weight of each set-up in the mean of its stage: unweighted over days, then over the set-ups of a
/// day; or over the set-ups at once.
std::vector<double> stage_weights(const std::vector<UnitSetup>& setups, bool by_day);

/// Values of the units of one block: set-up means, or means of each day's set-ups.
std::vector<double> unit_values(const std::vector<UnitSetup>& setups, bool by_day);

SetupValue summary_of(const UnitSetup& unit);

/// One reading with the coefficient and the sensor place of its panel.
NormalisedReading normalised_reading(const Test& test, const Reading& reading);
/// Logarithm of its normalised power in W.
double log_power(const Test& test, const Reading& reading);

/// Readings that the mean of a set-up's values is worth: all when the record says why they are
/// independent; by lag-1 autocorrelation from 20 on; else one (MEASUREMENT M2).
double effective_readings(const std::vector<double>& values, bool independent);

/// Standard uncertainty of a unit's value by the scatter of its readings. Requires reading_sd.
double reading_u(const UnitSetup& unit, bool independent);

/// Steps that every set-up of both stages redid; nothing when neither protocol nor record says.
std::optional<std::vector<Redone>> redone_in_all(const Test& test, const StageBlocks& blocks);

/// Ratio of the larger to the smaller variance of the units of two stages over its 97.5 % point of
/// F: above 1 is a warning. Nothing unless both have three units or more.
std::optional<double> variance_ratio(const std::vector<double>& before,
                                     const std::vector<double>& after);

}  // namespace hailwright
