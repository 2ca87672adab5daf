#include "hailwright/plan/next_specimen.hpp"

#include <algorithm>

#include "hailwright/core/contract.hpp"
#include "input/specimens_reader.hpp"

namespace hailwright {

namespace {

const SeriesOutlook& hardest_series(const TestPlan& plan) {
  const std::vector<SeriesOutlook>& series = plan.outlook.series;
  expects(!series.empty(), "a next specimen needs a protocol with a series");
  return *std::max_element(
      series.begin(), series.end(),
      [](const SeriesOutlook& a, const SeriesOutlook& b) { return a.nominal < b.nominal; });
}

PlanDangers raised(const TestPlan& plan, double harder) {
  PlanDangers dangers = plan.outlook.dangers;
  if (harder <= 1.0) return dangers;
  dangers.muzzle_energy = dangers.muzzle_energy * harder;
  dangers.per_area = dangers.per_area * harder;
  if (!plan.outlook.miss.fastest_stated) dangers.no_air_reach = dangers.no_air_reach * harder;
  return dangers;
}

/// Of the ball and the energy that the gate is asked about: a launcher that cannot give them was
/// described wrongly, and what its stated speed bounds would not hold.
bool launcher_suffices(const TestPlan& plan, const SeriesOutlook& series, double harder) {
  const std::optional<Speed>& fastest = plan.protocol->launch.fastest;
  if (!fastest) return true;
  expects(series.heaviest.si() > 0.0, "a series has a heaviest ball");
  const Energy upper = series.upper * harder;
  return 0.5 * (series.heaviest * (*fastest * *fastest)) >= upper;
}

}  // namespace

NextSpecimenAnswer ask_for_next_specimen(const TestPlan& plan, const DamageThreshold& threshold) {
  NextSpecimenAnswer answer;
  const SeriesOutlook& series = hardest_series(plan);
  answer.series = series.series;
  if (!threshold.staircase) {
    answer.obstacle = NextObstacle::no_staircase;
    return answer;
  }
  if (!threshold.staircase->next_level) {
    answer.obstacle = NextObstacle::between_levels;
    return answer;
  }
  const Energy energy = *threshold.staircase->next_level;
  if (energy < input::least_specimen_energy) {
    answer.obstacle = NextObstacle::too_little;
    return answer;
  }
  const double harder = energy.si() / series.nominal.si();
  answer.gate = Gate::ask(plan.protocol->safety, raised(plan, harder), plan.today);
  if (!answer.gate->clearance) {
    answer.obstacle = NextObstacle::gate_closed;
  } else if (!launcher_suffices(plan, series, harder)) {
    answer.obstacle = NextObstacle::launcher_too_slow;
  } else {
    answer.next.emplace(*answer.gate->clearance, energy, series.upper * harder);
  }
  return answer;
}

}  // namespace hailwright
