#include "hailwright/plan/timetable.hpp"

#include <algorithm>

#include "support/catch.hpp"

using namespace hailwright;

namespace {

double minutes(const Timetable& t, TaskKind kind) {
  for (const Task& task : t.tasks) {
    if (task.kind == kind) return task.takes.si() / 60.0;
  }
  return 0.0;
}

SeriesPlan series_of(int places) {
  SeriesPlan s;
  s.places.resize(static_cast<std::size_t>(places));
  return s;
}

}  // namespace

TEST_CASE("timetable: the day of an invented test with two panels and a control") {
  TimetableFacts facts;
  facts.panels = 2;
  facts.unstruck = 1;
  facts.setups_before = 4;
  facts.setups_after = 4;
  facts.readings = 6;
  facts.trials = 10;
  facts.throws = 80;
  facts.looks = 6;
  facts.nights = 3;
  const Timetable t = make_timetable(facts);
  std::vector<TaskKind> order;
  for (const Task& task : t.tasks)
    order.push_back(task.kind);
  using enum TaskKind;
  CHECK(order ==
        std::vector<TaskKind>{freezing, gate, setups_before, trials, throws, looks, setups_after});
  CHECK(t.nights == 3);
  CHECK_THAT(minutes(t, freezing), WithinAbs(45.0, 1e-9));
  // A third panel in the set-up: six readings of 40 s more.
  CHECK_THAT(minutes(t, setups_before), WithinAbs(4 * (25.0 + 4.0), 1e-9));
  CHECK_THAT(minutes(t, trials), WithinAbs(50.0, 1e-9));
  CHECK_THAT(minutes(t, throws), WithinAbs(160.0, 1e-9));
  CHECK_THAT(minutes(t, looks), WithinAbs(90.0, 1e-9));
  // Nights are no part of the day.
  CHECK_THAT(t.day.si() / 60.0, WithinAbs(20 + 116 + 50 + 160 + 90 + 116, 1e-9));
  CHECK(t.people == 2);
}

TEST_CASE("timetable: siblings are read in every set-up after the shots, and none before") {
  TimetableFacts facts;
  facts.unstruck = 4;
  facts.setups_after = 3;
  facts.readings = 4;
  const Timetable t = make_timetable(facts);
  REQUIRE(t.tasks.size() == 1);
  CHECK(t.tasks[0].kind == TaskKind::setups_after);
  // Five panels: three more than a set-up has time for, four readings of 40 s each.
  CHECK_THAT(minutes(t, TaskKind::setups_after), WithinAbs(3 * (25.0 + 8.0), 1e-9));
}

TEST_CASE("timetable: what is not planned takes no time") {
  TimetableFacts facts;
  CHECK(make_timetable(facts).tasks.empty());
  CHECK(make_timetable(facts).day == Time{});
  CHECK(make_timetable(facts).people == 1);
  facts.setups_before = 3;  // measured only: nothing flies, so there is no gate to go through
  const Timetable t = make_timetable(facts);
  REQUIRE(t.tasks.size() == 1);
  CHECK(t.tasks[0].kind == TaskKind::setups_before);
  CHECK_THAT(t.day.si(), WithinAbs(3 * 25 * 60.0, 1e-9));
  facts.throws = 1;
  CHECK(make_timetable(facts).tasks.front().kind == TaskKind::gate);
}

TEST_CASE("timetable: the hardest series goes first, on the last panel, from its last place") {
  const std::vector<SeriesPlan> series{series_of(3), series_of(2)};
  CHECK(
      drop_order(series, 2) ==
      std::vector<Drop>{
          {1, 1, 1}, {1, 1, 0}, {1, 0, 1}, {1, 0, 0}, {0, 1, 2}, {0, 1, 1}, {0, 0, 2}, {0, 0, 1}});
  CHECK(drop_order({series_of(1)}, 1).empty());
  CHECK(drop_order({}, 1).empty());
}

TEST_CASE("timetable: readings after the shots and looks are never dropped") {
  const auto kept = [](TaskKind kind) {
    return std::find(std::begin(never_dropped), std::end(never_dropped), kind) !=
           std::end(never_dropped);
  };
  CHECK(kept(TaskKind::setups_after));
  CHECK(kept(TaskKind::looks));
  CHECK_FALSE(kept(TaskKind::throws));
}
