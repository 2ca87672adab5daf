#pragma once

#include <optional>
#include <string>
#include <vector>

#include "hailwright/evaluate/power_model.hpp"

namespace hailwright {

/// Readings of one round that belong together: of the struck panel alone, or with the control's.
struct Round {
  const Reading* struck = nullptr;
  const Reading* control = nullptr;
};

/// One set-up as a unit of a comparison.
struct UnitSetup {
  std::size_t setup = 0;
  std::string name;
  std::string date;
  std::vector<Round> rounds;
  std::vector<double> values;  ///< by round: q, or q_struck - q_control
  double value = 0.0;          ///< their unweighted mean
  std::optional<double> reading_sd;
};

struct StageBlocks {
  std::vector<UnitSetup> from, to, baseline;
  std::optional<std::string> unpaired;  ///< name of a set-up without one complete round
};

/// The set-ups of both stages and of the baseline with the readings that count. Set-ups without any
/// are left out.
StageBlocks collect_stage_blocks(const Test& test, const PowerQuestion& question);

/// One reading with the coefficient and the sensor place of its panel.
NormalisedReading normalised_reading(const Test& test, const Reading& reading);

/// Readings that the mean of a set-up's values is worth: all when the record says why they are
/// independent; by lag-1 autocorrelation from 20 on; else one (MEASUREMENT M2).
double effective_readings(const std::vector<double>& values, bool independent);

/// Steps that every set-up of both stages redid; nothing when neither protocol nor record says.
std::optional<std::vector<Redone>> redone_in_all(const Test& test, const StageBlocks& blocks);

/// Ratio of the larger to the smaller variance of the units of two stages over its 97.5 % point of
/// F: above 1 is a warning. Nothing unless both have three units or more.
std::optional<double> variance_ratio(const std::vector<double>& before,
                                     const std::vector<double>& after);

}  // namespace hailwright
