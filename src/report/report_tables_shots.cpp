// Tables of a write-up: every throw.
#include <numbers>

#include "hailwright/core/contract.hpp"
#include "hailwright/core/quantity_text.hpp"
#include "input/table_clock.hpp"
#include "report/report_tables.hpp"
#include "report/sentences.hpp"
#include "report/shown_energy.hpp"

namespace hailwright {

namespace {

std::string landed_text(Landing landing) {
  switch (landing) {
  case Landing::in:
    return "in its place";
  case Landing::miss:
    return "missed";
  case Landing::broke:
    return "broke before the panel";
  case Landing::offset:
  case Landing::at:
    return "on the panel";
  }
  fail_contract("unknown landing");
}

double number_of(double si, const char* symbol, Measure measure) {
  const Unit* unit = find_unit(symbol, measure);
  expects(unit != nullptr, "a unit of the table");
  return number_in(si, *unit);
}

DataCell in_mm(const std::optional<Length>& length) {
  return length ? DataCell(number_of(length->si(), "mm", Measure::length)) : DataCell();
}

/// Where a throw hit, on the panel and from the middle of the place aimed at, as far as known.
struct HitPosition {
  std::optional<Length> right, up, offset_right, offset_up;
};

HitPosition position_of(const Shot& shot, const Place& aimed) {
  HitPosition hit;
  if (!shot.where) return hit;
  if (shot.landing == Landing::offset) {
    hit.offset_right = shot.where->right;
    hit.offset_up = shot.where->up;
    if (aimed.at) {
      hit.right = aimed.at->right + shot.where->right;
      hit.up = aimed.at->up + shot.where->up;
    }
  } else if (shot.landing == Landing::at) {
    hit.right = shot.where->right;
    hit.up = shot.where->up;
    if (aimed.at) {
      hit.offset_right = shot.where->right - aimed.at->right;
      hit.offset_up = shot.where->up - aimed.at->up;
    }
  }
  return hit;
}

/// A quantity and its standard uncertainty, in a unit of which the SI unit holds so many.
template <class Q>
void add_estimate(std::vector<DataCell>& cells, const std::optional<ShotQuantity>& quantity,
                  double per_si) {
  if (!quantity) {
    cells.resize(cells.size() + 2);
    return;
  }
  const Estimate<Q> estimate = combined<Q>(*quantity);
  cells.emplace_back(estimate.value.si() * per_si);
  cells.emplace_back(estimate.standard_u.si() * per_si);
}

void add_energy(std::vector<DataCell>& cells, const std::optional<Estimate<Energy>>& energy) {
  if (!energy) {
    cells.resize(cells.size() + 4);
    return;
  }
  cells.emplace_back(energy->value.si());
  cells.emplace_back(energy->standard_u.si());
  const EnergyEnds ends = two_sided_interval(*energy);
  cells.emplace_back(ends.low.si());
  cells.emplace_back(ends.high.si());
}

void add_standing(std::vector<DataCell>& cells, const ShotResult& r) {
  if (!r.on_panel) {
    cells.resize(cells.size() + 3);
    return;
  }
  cells.emplace_back(r.sides.not_weaker ? "yes" : r.sides.weaker ? "below it" : "not shown");
  cells.emplace_back(r.sides.not_stronger ? "yes" : "not shown");
  cells.emplace_back(r.doubt == StrengthDoubt::none ? "" : doubt_text(r.doubt));
}

std::vector<DataCell> shot_cells(const Test& test, const SeriesPlan& plan, const ShotResult& r) {
  const Shot& shot = test.record.shots[r.shot];
  const HitPosition hit = position_of(shot, plan.places[shot.place]);
  std::vector<DataCell> cells{test.record.title,
                              static_cast<double>(shot.number),
                              plan.name,
                              plan.places[shot.place].name,
                              landed_text(shot.landing),
                              r.on_panel && r.place ? plan.places[*r.place].name : "",
                              r.repeat ? "yes" : "",
                              in_mm(r.off),
                              in_mm(hit.offset_right),
                              in_mm(hit.offset_up),
                              in_mm(hit.right),
                              in_mm(hit.up)};
  constexpr double grams = 1000.0;
  add_estimate<Mass>(cells, r.mass, grams);
  cells.push_back(in_mm(r.diameter));
  add_estimate<Speed>(cells, r.speed, 1.0);
  add_energy(cells, r.energy);
  add_standing(cells, r);
  const auto degrees = [](Angle a) { return a.si() * 180.0 / std::numbers::pi; };
  cells.push_back(shot.angle ? DataCell(degrees(*shot.angle)) : DataCell());
  cells.emplace_back(shot.minute ? input::time_text(*shot.minute) : "");
  cells.emplace_back(shot.note);
  cells.emplace_back(shot.photo);
  return cells;
}

}  // namespace

DataTable shots_table(const WriteUp& write_up) {
  DataTable table{"shots",
                  "Every throw at the panel: where it landed, its energy at the panel with the 95 "
                  "% interval, and whether it is shown to be at least at the grade",
                  {{"record", ""},
                   {"throw", "", 0},
                   {"series", ""},
                   {"aimed at", ""},
                   {"landed", ""},
                   {"place hit", ""},
                   for_machines({"struck before", ""}),
                   for_machines({"off", "mm", 0}),
                   for_machines({"offset right", "mm", 0}),
                   for_machines({"offset up", "mm", 0}),
                   for_machines({"right", "mm", 0}),
                   for_machines({"up", "mm", 0}),
                   for_machines({"mass", "g", 2}),
                   for_machines({"u of the mass", "g", 2}),
                   for_machines({"diameter", "mm", 1}),
                   {"speed", "m/s", 2},
                   for_machines({"u of the speed", "m/s", 2}),
                   {"energy", "J", 2},
                   for_machines({"u of the energy", "J", 2}),
                   {"energy, low", "J", 2},
                   {"energy, high", "J", 2},
                   {"at least the grade", ""},
                   for_machines({"at most the grade", ""}),
                   for_machines({"doubt", ""}),
                   for_machines({"angle", "deg", 0}),
                   for_machines({"time", ""}),
                   {"note", ""},
                   for_machines({"photo", ""})},
                  {}};
  for (const Judged& judged : write_up.judged) {
    for (const SeriesDelivery& d : judged.assessment->delivery) {
      for (const ShotResult& r : d.shots) {
        table.rows.push_back(shot_cells(*judged.test, judged.test->protocol.series[d.series], r));
      }
    }
  }
  return table;
}

}  // namespace hailwright
