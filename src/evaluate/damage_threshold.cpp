#include "hailwright/evaluate/damage_threshold.hpp"

#include <algorithm>
#include <cmath>

#include "hailwright/metrology/distributions.hpp"

namespace hailwright {

namespace {

Energy from_log(double log_joules) {
  return Energy::from_si(std::exp(log_joules));
}

std::vector<ProbitTest> in_log_energy(const Specimens& specimens) {
  std::vector<ProbitTest> tests;
  for (const SpecimenTest& test : specimens.tests)
    tests.push_back({std::log(test.energy.si()), test.damaged});
  return tests;
}

SpecimenBracket bracket_of(const Specimens& specimens) {
  SpecimenBracket bracket;
  for (const SpecimenTest& test : specimens.tests) {
    if (test.damaged) {
      bracket.lowest_damaged = std::min(bracket.lowest_damaged.value_or(test.energy), test.energy);
    } else {
      bracket.highest_undamaged =
          std::max(bracket.highest_undamaged.value_or(test.energy), test.energy);
    }
  }
  return bracket;
}

EnergyInterval in_energy(const ProfileInterval& interval) {
  EnergyInterval energies;
  if (interval.low) energies.low = from_log(*interval.low);
  if (interval.high) energies.high = from_log(*interval.high);
  return energies;
}

/// An error of all energies alike moves the estimate as it is, independently of the outcomes: the
/// two half-widths add as squares, side by side.
EnergyInterval widened(double estimate, const ProfileInterval& interval, double u) {
  const double shared = normal_quantile(0.5 * (1.0 + threshold_level)) * u;
  EnergyInterval energies;
  if (interval.low)
    energies.low = from_log(estimate - std::hypot(estimate - *interval.low, shared));
  if (interval.high)
    energies.high = from_log(estimate + std::hypot(*interval.high - estimate, shared));
  return energies;
}

ThresholdEnergy energy_at(double share, const std::vector<ProbitTest>& tests, const ProbitFit& fit,
                          const std::optional<EnergyDoubt>& doubt, Energy lowest) {
  const double estimate = fit.quantile(share);
  const ProfileInterval interval = quantile_interval(tests, fit, share, threshold_level);
  ThresholdEnergy energy;
  energy.share = share;
  energy.estimate = from_log(estimate);
  energy.interval = in_energy(interval);
  if (doubt) energy.with_shared_error = widened(estimate, interval, doubt->largest_u);
  energy.below_all_tests = energy.estimate < lowest;
  return energy;
}

std::optional<EnergyDoubt> doubt_of(const Specimens& specimens) {
  EnergyDoubt doubt;
  for (const SpecimenTest& test : specimens.tests) {
    const std::optional<double> u = log_energy_u(test, specimens);
    if (!u) return std::nullopt;
    doubt.largest_u = std::max(doubt.largest_u, *u);
  }
  if (specimens.tests.empty()) return std::nullopt;
  return doubt;
}

StaircaseResult judge_staircase(const StaircasePlan& plan, const std::vector<ProbitTest>& tests) {
  const StaircaseGrid grid{std::log(plan.start.si()), std::log1p(plan.step.si())};
  StaircaseResult result;
  result.step = grid.step;
  result.sums = estimate_staircase(tests, grid);
  if (result.sums.obstacle == StaircaseObstacle::none) {
    result.e50 = from_log(*result.sums.location);
    result.scale = result.sums.scale;
  }
  if (tests.empty()) {
    result.next_level = plan.start;
  } else if (const std::optional<int> last = grid.level(tests.back().x)) {
    result.next_level = from_log(grid.at(next_level(*last, tests.back().one)));
  }
  return result;
}

std::vector<ThresholdObstacle> obstacles_of(const DamageThreshold& result, ProbitObstacle overlap,
                                            bool fitted) {
  std::vector<ThresholdObstacle> obstacles;
  if (result.damaged < ThresholdLimits::fewest_of_either)
    obstacles.push_back(ThresholdObstacle::few_damaged);
  if (result.undamaged < ThresholdLimits::fewest_of_either)
    obstacles.push_back(ThresholdObstacle::few_undamaged);
  if (overlap == ProbitObstacle::separated) obstacles.push_back(ThresholdObstacle::separated);
  if (overlap == ProbitObstacle::not_rising || (overlap == ProbitObstacle::none && !fitted))
    obstacles.push_back(ThresholdObstacle::not_rising);
  return obstacles;
}

}  // namespace

std::optional<double> log_energy_u(const SpecimenTest& test, const Specimens& specimens) {
  if (!test.mass) {
    if (!specimens.energy_error) return std::nullopt;
    const Stated<Ratio>& error = *specimens.energy_error;
    return std::hypot(error.relative_u(), error.constant_u().si());
  }
  if (!specimens.mass_error || !specimens.speed_error) return std::nullopt;
  const double mass = std::hypot(specimens.mass_error->relative_u(),
                                 (specimens.mass_error->constant_u() / *test.mass).si());
  const double speed = std::hypot(specimens.speed_error->relative_u(),
                                  (specimens.speed_error->constant_u() / *test.speed).si());
  return std::hypot(mass, 2.0 * speed);
}

DamageThreshold judge_threshold(const Specimens& specimens) {
  const std::vector<ProbitTest> tests = in_log_energy(specimens);
  DamageThreshold result;
  for (const SpecimenTest& test : specimens.tests) {
    ++(test.damaged ? result.damaged : result.undamaged);
    result.lowest = std::min(result.lowest.value_or(test.energy), test.energy);
    result.highest = std::max(result.highest.value_or(test.energy), test.energy);
  }
  result.bracket = bracket_of(specimens);
  result.doubt = doubt_of(specimens);
  const std::optional<ProbitFit> fit = fit_probit(tests);
  result.obstacles = obstacles_of(result, probit_obstacle(tests), fit.has_value());
  if (specimens.staircase) result.staircase = judge_staircase(*specimens.staircase, tests);
  if (!result.obstacles.empty()) {
    if (result.staircase) result.staircase->e50 = std::nullopt;
    if (result.staircase) result.staircase->scale = std::nullopt;
    return result;
  }
  if (result.doubt) result.doubt->of_scale = result.doubt->largest_u / fit->scale;
  result.estimate = ThresholdEstimate{*fit, scale_interval(tests, *fit, threshold_level),
                                      energy_at(0.1, tests, *fit, result.doubt, *result.lowest),
                                      energy_at(0.5, tests, *fit, result.doubt, *result.lowest)};
  return result;
}

}  // namespace hailwright
