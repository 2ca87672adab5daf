#pragma once

#include <vector>

#include "hailwright/evaluate/power_model.hpp"

namespace hailwright {

/// A model's readings for random trials, with those that are much alike taken as one.
struct MergedReadings {
  std::vector<PowerModel::Term> terms;  ///< in the order of the model's, but for what was merged
  /// What an error of 1 in each input adds to lambda beside these terms, so that every first
  /// derivative is that of all the readings.
  std::vector<double> in_lambda;
  double constant = 0.0;  ///< likewise of lambda itself
};

/// So many readings that share all their errors, or fewer, stay as they are.
inline constexpr std::size_t most_kept_single = 64;

/// Long rows of readings in one set-up would cost a million trials seconds and tell them nothing:
/// what a reading adds is how its conditions bend the effect of the errors. Readings that share all
/// their errors, more than `most_kept_single` of them, are sorted into cells 10 %
/// wide in power and irradiance and 5 K in temperature. Each cell becomes one term at the mean of
/// its readings; value and first derivatives are corrected to be exact, so that only differences of
/// second derivatives inside a cell are lost: less than a ten-thousandth of what the errors do.
MergedReadings merge_alike(const PowerModel& model);

}  // namespace hailwright
