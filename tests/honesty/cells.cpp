#include "honesty/cells.hpp"

#include <fmt/format.h>

namespace hailwright::honesty {

namespace {

constexpr double day = 0.004;

std::string words(Kind kind) {
  switch (kind) {
  case Kind::same_panel:
    return "same panel, one day a stage";
  case Kind::same_panel_days:
    return "same panel, a day each set-up";
  case Kind::control_beside:
    return "control panel, side by side";
  case Kind::control_in_turn:
    return "control panel, in turn";
  case Kind::siblings:
    return "unstruck units";
  case Kind::fitted_trend:
    return "same panel, line in time taken out";
  case Kind::with_baseline:
    return "same panel, 3 baseline set-ups";
  case Kind::stated_scatter:
    return "same panel, one set-up of K readings, scatter stated";
  }
  return {};
}

Errors with_day(double size) {
  Errors e;
  e.day = size;
  return e;
}

/// A cell whose protocol tells the truth.
Cell honest(Part part, Kind kind, int count, std::string world, Errors errors) {
  if (kind == Kind::siblings) errors.stage = 0.0;  // one stage has no drift
  return {part, words(kind), {kind, count}, std::move(world), errors, errors};
}

void add_promised(std::vector<Cell>& cells) {
  for (const Kind kind : {Kind::same_panel, Kind::same_panel_days, Kind::control_beside,
                          Kind::control_in_turn, Kind::siblings}) {
    for (const int count : {3, 4, 6, 8}) {
      cells.push_back(honest(Part::promised, kind, count, "no day effect", {}));
      cells.push_back(honest(Part::promised, kind, count, "day 0.4 %", with_day(day)));
    }
  }
}

/// Nothing of weight but the scatter of the set-ups: no accuracy may be stated as none at all.
Errors scatter_alone() {
  constexpr double next_to_nothing = 1e-6;
  Errors e;
  e.reading = e.stage = e.meter_digits = e.meter_between = e.sun_between = 0.0;
  e.meter_gain = e.sun_gain = e.gamma_per_k = next_to_nothing;
  e.thermometer_k = e.each_time_k = e.cell_k = 0.001;
  return e;
}

void add_further(std::vector<Cell>& cells) {
  for (const int count : {3, 8}) {
    cells.push_back(honest(Part::further, Kind::same_panel, count,
                           "normal scatter and nothing else", scatter_alone()));
  }
  for (const int count : {4, 8}) {
    Cell cell = honest(Part::further, Kind::fitted_trend, count, "0.2 % an hour", {});
    cell.mischief.per_hour = 0.002;
    cells.push_back(cell);
  }
  cells.push_back(honest(Part::further, Kind::with_baseline, 2, "day 0.4 %", with_day(day)));
  cells.push_back(honest(Part::further, Kind::stated_scatter, 6, "day 0.4 %", with_day(day)));
}

/// A cell of the plainest comparison whose protocol holds the errors of `stated` for true.
Cell dishonest(Part part, int count, std::string world, const Errors& stated, const Errors& truth,
               const Mischief& mischief = {}) {
  constexpr Kind kind = Kind::same_panel;
  return {part, words(kind), {kind, count}, std::move(world), stated, truth, mischief};
}

void add_broken(std::vector<Cell>& cells) {
  const double setup = Errors().setup;
  for (const int count : {3, 4, 6, 8}) {
    cells.push_back(
        dishonest(Part::broken, count, "day 0.5 %, stated as none", {}, with_day(setup)));
  }
  Errors day_alone = scatter_alone();
  day_alone.day = setup;
  for (const int count : {3, 8}) {
    cells.push_back(dishonest(Part::broken, count, "day 0.5 %, stated as none, nothing else",
                              scatter_alone(), day_alone));
  }
  for (const int count : {3, 4, 6, 8}) {
    cells.push_back(dishonest(Part::broken, count, "day 0.8 %, stated as 0.4 %", with_day(day),
                              with_day(2.0 * day)));
  }
  Mischief drift;
  drift.all_panels = 0.01;
  Mischief once;
  once.mounted_once = true;
  for (const int count : {3, 8}) {
    cells.push_back(
        dishonest(Part::broken, count, "panels drift by 1 %, stated as 0.3 %", {}, {}, drift));
  }
  for (const int count : {3, 8}) {
    cells.push_back(
        dishonest(Part::broken, count, "mounted once a stage, said to be anew", {}, {}, once));
  }
}

void add_shown(std::vector<Cell>& cells) {
  Mischief drift;
  drift.all_panels = 0.01;
  Mischief wrong;
  wrong.gone_wrong = 0.1;
  for (const int count : {3, 8}) {
    Cell cell =
        honest(Part::shown, Kind::control_beside, count, "panels drift by 1 % together", {});
    cell.mischief = drift;
    cells.push_back(cell);
  }
  for (const int count : {3, 8}) {
    cells.push_back(
        dishonest(Part::shown, count, "one set-up in ten is five times as far off", {}, {}, wrong));
  }
}

}  // namespace

std::string Cell::name() const {
  return fmt::format("{}; K = {}; {}", comparison, design.count, world);
}

std::vector<Cell> all_cells() {
  std::vector<Cell> cells;
  add_promised(cells);
  add_further(cells);
  add_broken(cells);
  add_shown(cells);
  return cells;
}

}  // namespace hailwright::honesty
