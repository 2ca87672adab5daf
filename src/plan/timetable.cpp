#include "hailwright/plan/timetable.hpp"

#include <algorithm>

#include "hailwright/core/contract.hpp"

namespace hailwright {

namespace {

/// Somebody launches or handles the panels, somebody watches [ours].
constexpr int outside = 2;

/// One set-up with all panels in it; the time for two of them is in `setup` itself.
Time one_setup(const TimetableFacts& facts) {
  const int further = std::max(0, facts.panels + facts.unstruck - 2);
  return timetable_pace::setup + further * facts.readings * timetable_pace::further;
}

}  // namespace

Timetable make_timetable(const TimetableFacts& facts) {
  expects(facts.panels >= 1, "make_timetable: a panel");
  expects(facts.unstruck >= 0 && facts.setups_before >= 0 && facts.setups_after >= 0 &&
              facts.readings >= 0 && facts.trials >= 0 && facts.throws >= 0 && facts.looks >= 0 &&
              facts.nights >= 0,
          "make_timetable: counts of 0 or more");
  Timetable table;
  table.nights = facts.nights;
  const auto add = [&table](TaskKind kind, int count, Time each, int people) {
    if (count == 0) return;
    table.tasks.push_back({kind, count * each, people});
    table.people = std::max(table.people, people);
    if (kind != TaskKind::freezing) table.day += count * each;
  };
  const bool launches = facts.trials + facts.throws > 0;
  add(TaskKind::freezing, facts.nights, timetable_pace::night, 1);
  add(TaskKind::gate, launches ? 1 : 0, timetable_pace::gate, outside);
  add(TaskKind::setups_before, facts.setups_before, one_setup(facts), outside);
  add(TaskKind::trials, facts.trials, timetable_pace::trial, outside);
  add(TaskKind::throws, facts.throws, timetable_pace::a_throw, outside);
  add(TaskKind::looks, facts.looks, timetable_pace::look, outside);
  add(TaskKind::setups_after, facts.setups_after, one_setup(facts), outside);
  return table;
}

std::vector<Drop> drop_order(const std::vector<SeriesPlan>& series, std::size_t panels) {
  std::vector<Drop> order;
  for (std::size_t s = series.size(); s-- > 0;) {
    const std::size_t kept = s == 0 ? 1 : 0;
    for (std::size_t panel = panels; panel-- > 0;) {
      for (std::size_t place = series[s].places.size(); place-- > kept;)
        order.push_back({s, panel, place});
    }
  }
  return order;
}

}  // namespace hailwright
