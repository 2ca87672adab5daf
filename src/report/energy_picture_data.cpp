#include "report/energy_picture_data.hpp"

#include <algorithm>

#include "hailwright/physics/impact.hpp"
#include "report/sentences.hpp"
#include "report/shown_energy.hpp"

namespace hailwright::detail {

namespace {

EnergyMark mark_of(const ShotResult& result, int number) {
  const EnergyEnds ends = two_sided_interval(*result.energy);
  return {number,      result.energy->value,    ends.low,
          ends.high,   result.sides.not_weaker, result.place.has_value(),
          result.doubt};
}

EnergySeries series_of(const Test& test, const SeriesDelivery& delivery) {
  const SeriesPlan& plan = test.protocol.series[delivery.series];
  EnergySeries series{delivery.series, plan.name, target_text(plan.target), {}, {}, {}, {}};
  for (const ShotResult& result : delivery.shots) {
    const Shot& shot = test.record.shots[result.shot];
    if (shot.landing == Landing::miss) {
      series.missed.push_back(shot.number);
    } else if (shot.landing == Landing::broke) {
      series.broken.push_back(shot.number);
    } else if (result.energy && result.energy->value.si() > 0.0) {
      series.marks.push_back(mark_of(result, shot.number));
    } else {
      series.unknown.push_back(shot.number);
    }
  }
  return series;
}

EnergyLevel level_of(std::string name, Energy value, Ratio tolerance) {
  const EnergyEnds corners = corners_of_tolerance(value, tolerance);
  return {std::move(name), value, corners.low, corners.high, false, false};
}

bool doubtful(const Grade& grade) {
  const auto unread = [](FieldStatus status) {
    return status == FieldStatus::from_memory || status == FieldStatus::derived;
  };
  return unread(grade.diameter_status) || unread(grade.mass_status) || unread(grade.speed_status);
}

EnergyLevel aimed_level(const SeriesPlan& plan, const SeriesDelivery& delivery) {
  const Target& target = plan.target;
  EnergyLevel level =
      level_of(target.grade != nullptr ? std::string(target.grade->name) : plan.name,
               kinetic_energy({target.mass}, {target.speed}).value, delivery.tolerance);
  level.aimed_at = true;
  level.doubtful = target.grade != nullptr && doubtful(*target.grade);
  return level;
}

/// Energies that a picture shows anyway.
struct EnergyRange {
  Energy least, most;
  void widen(Energy low, Energy high) {
    least = std::min(least, low);
    most = std::max(most, high);
  }
};

EnergyRange range_of(const EnergyView& view) {
  EnergyRange range{view.levels.front().low, view.levels.front().high};
  for (const EnergyLevel& level : view.levels)
    range.widen(level.low, level.high);
  for (const EnergySeries& series : view.series) {
    for (const EnergyMark& mark : series.marks)
      range.widen(mark.value, mark.value);
  }
  return range;
}

/// Adds the other grades of a scheme that say something beside energies of this range: those inside
/// it, and the next on either side, which are not drawn.
void add_others(const Grade& like, const std::vector<const Grade*>& aimed, EnergyView& view) {
  const EnergyRange range = range_of(view);
  std::optional<EnergyLevel> below;
  std::optional<EnergyLevel> above;
  for (const Grade& grade : impact_grades()) {
    if (grade.scheme != like.scheme || grade.projectile != like.projectile) continue;
    if (std::find(aimed.begin(), aimed.end(), &grade) != aimed.end() || !grade.energy()) continue;
    EnergyLevel level = level_of(std::string(grade.name), *grade.energy(),
                                 grade.tolerance.value_or(defaults::tolerance));
    level.doubtful = doubtful(grade);
    if (level.value < range.least) {
      if (!below || below->value < level.value) below = std::move(level);
    } else if (level.value > range.most) {
      if (!above || level.value < above->value) above = std::move(level);
    } else {
      view.levels.push_back(std::move(level));
    }
  }
  if (below) view.far_levels.push_back(std::move(*below));
  if (above) view.far_levels.push_back(std::move(*above));
}

class Viewing {
public:
  explicit Viewing(const Test& test) : test_(test) {}

  EnergyView view(const std::vector<const SeriesDelivery*>& deliveries) {
    EnergyView view;
    const Grade* grade = grade_of(*deliveries.front());
    if (grade != nullptr) view.scheme = std::string(grade->scheme);
    std::vector<const Grade*> aimed;
    for (const SeriesDelivery* delivery : deliveries) {
      view.series.push_back(series_of(test_, *delivery));
      EnergyLevel level = aimed_level(test_.protocol.series[delivery->series], *delivery);
      const bool again = std::any_of(view.levels.begin(), view.levels.end(), [&](const auto& one) {
        return one.name == level.name && one.low == level.low && one.value == level.value;
      });
      if (!again) view.levels.push_back(std::move(level));
      aimed.push_back(grade_of(*delivery));
    }
    if (grade != nullptr) add_others(*grade, aimed, view);
    std::stable_sort(view.levels.begin(), view.levels.end(),
                     [](const auto& a, const auto& b) { return a.value < b.value; });
    return view;
  }

  /// Series of one scheme and kind of ball belong together; free targets too.
  [[nodiscard]] bool belong_together(const SeriesDelivery& a, const SeriesDelivery& b) const {
    const Grade* first = grade_of(a);
    const Grade* second = grade_of(b);
    if (first == nullptr || second == nullptr) return first == second;
    return first->scheme == second->scheme && first->projectile == second->projectile;
  }

private:
  [[nodiscard]] const Grade* grade_of(const SeriesDelivery& delivery) const {
    return test_.protocol.series[delivery.series].target.grade;
  }

  const Test& test_;
};

bool any_known(const EnergyView& view) {
  return std::any_of(view.series.begin(), view.series.end(),
                     [](const EnergySeries& series) { return !series.marks.empty(); });
}

}  // namespace

std::vector<EnergyView> view_energies(const Judged& judged) {
  Viewing viewing(*judged.test);
  std::vector<std::vector<const SeriesDelivery*>> groups;
  for (const SeriesDelivery& delivery : judged.assessment->delivery) {
    auto group = std::find_if(groups.begin(), groups.end(), [&](const auto& candidate) {
      return viewing.belong_together(*candidate.front(), delivery);
    });
    if (group == groups.end()) group = groups.emplace(group);
    group->push_back(&delivery);
  }
  std::vector<EnergyView> views;
  for (const auto& group : groups) {
    EnergyView view = viewing.view(group);
    if (any_known(view)) views.push_back(std::move(view));
  }
  return views;
}

}  // namespace hailwright::detail
