#pragma once

#include <cstddef>
#include <optional>
#include <vector>

#include "hailwright/core/quantity.hpp"
#include "hailwright/metrology/probit.hpp"
#include "hailwright/metrology/staircase.hpp"
#include "hailwright/model/specimens.hpp"

namespace hailwright {

/// Level of the intervals of a threshold.
inline constexpr double threshold_level = 0.95;

/// Figures that decide what is said of a threshold.
struct ThresholdLimits {
  static constexpr int fewest_of_either = 5;  ///< tests with damage, and without (M14)
  /// Standard uncertainty of an energy, of the scatter, from which on it is warned of [ours]: own
  /// errors of this size make the scatter 4 % wider, those of the whole scatter 41 %.
  static constexpr double notable_u = 0.3;
};

/// Why there is no estimate; several may hold.
enum class ThresholdObstacle {
  few_damaged,    ///< fewer than 5
  few_undamaged,  ///< fewer than 5
  separated,      ///< no damaged specimen had less energy than one without damage
  not_rising      ///< damage did not become more frequent with energy
};

/// What the tests show by themselves, without a curve.
struct SpecimenBracket {
  std::optional<Energy> lowest_damaged, highest_undamaged;
  /// Both, and every damaged one lies above every other: damage began between them.
  [[nodiscard]] bool separated() const {
    return lowest_damaged && highest_undamaged && *highest_undamaged <= *lowest_damaged;
  }
};

/// An interval of an energy; a missing end does not exist: the data do not bound that side.
struct EnergyInterval {
  std::optional<Energy> low, high;
};

/// The energy that damages a share of the specimens.
struct ThresholdEnergy {
  double share = 0.5;
  Energy estimate;
  EnergyInterval interval;  ///< profile likelihood, `threshold_level`; of the tests alone
  /// With an error of the energies that all tests share; nothing: their errors are not stated.
  std::optional<EnergyInterval> with_shared_error;
  bool below_all_tests = false;  ///< the estimate is an extrapolation
};

/// How the uncertainty of the energies bears on the result.
struct EnergyDoubt {
  double largest_u = 0.0;          ///< of ln energy, standard; the largest of the tests
  std::optional<double> of_scale;  ///< the same as a share of the scatter
  /// Own errors may make up a notable part of the scatter.
  [[nodiscard]] bool notable() const { return of_scale && *of_scale > ThresholdLimits::notable_u; }
};

struct ThresholdEstimate {
  ProbitFit fit;          ///< of ln(energy / J)
  ProfileInterval scale;  ///< of the scatter of ln energy
  ThresholdEnergy e10, e50;
};

/// The up-and-down test, where one was planned.
struct StaircaseResult {
  StaircaseEstimate sums;
  double step = 0.0;  ///< of ln energy
  /// Where the formulas hold.
  std::optional<Energy> e50;
  std::optional<double> scale;
  /// The level that the rule asks for after the last test, the first one where there is no test;
  /// nothing where the last test lies between two levels. Helps to launch: printed only by leave of
  /// the gate (hailwright/plan/next_specimen.hpp).
  std::optional<Energy> next_level;
};

/// What a set of specimens shows of the energy at which they are damaged (MEASUREMENT M14).
struct DamageThreshold {
  int damaged = 0, undamaged = 0;
  SpecimenBracket bracket;
  std::vector<ThresholdObstacle> obstacles;   ///< empty where there is an estimate
  std::optional<ThresholdEstimate> estimate;  ///< probit by maximum likelihood
  std::optional<StaircaseResult> staircase;   ///< nothing: none was planned
  std::optional<EnergyDoubt> doubt;           ///< nothing: the errors are not stated
  std::optional<Energy> lowest, highest;      ///< energies tested
};

/// Standard uncertainty of ln energy of a test as the file states it; nothing where it does not
/// state all that the energy comes from.
std::optional<double> log_energy_u(const SpecimenTest& test, const Specimens& specimens);

DamageThreshold judge_threshold(const Specimens& specimens);

}  // namespace hailwright
