// Tables of a write-up: every place.
#include "report/place_marks.hpp"
#include "report/place_words.hpp"
#include "report/report_tables.hpp"
#include "report/shown_energy.hpp"

namespace hailwright {

namespace {

/// "2 and 3": the throws that count for a place.
std::string throws_on(const PlaceResult& place, const SeriesDelivery& delivery,
                      const Record& record) {
  std::vector<int> numbers;
  for (const ShotResult& r : delivery.shots) {
    if (r.on_panel && r.place == place.place) numbers.push_back(record.shots[r.shot].number);
  }
  return numbers.empty() ? "" : detail::number_ranges(std::move(numbers));
}

/// The throw that is the strongest evidence, with its energy and the low end of the interval.
void add_strongest(std::vector<DataCell>& cells, const PlaceResult& place,
                   const SeriesDelivery& delivery, const Record& record) {
  std::optional<double> number;
  std::optional<double> energy;
  std::optional<double> low;
  if (place.best) {
    const ShotResult& best = delivery.shots[*place.best];
    number = record.shots[best.shot].number;
    if (best.energy) {
      energy = best.energy->value.si();
      low = two_sided_interval(*best.energy).low.si();
    }
  }
  for (const auto& value : {number, energy, low})
    cells.push_back(cell(value));
}

std::string how_struck(const PlaceResult& place) {
  if (place.struck) return "yes";
  return place.hits > 0 ? "not shown" : "not struck";
}

void add_series(DataTable& table, const Test& test, const SeriesDelivery& delivery) {
  const SeriesPlan& plan = test.protocol.series[delivery.series];
  const std::vector<std::string> what = what_places_are(test, delivery.series);
  for (const PlaceResult& result : delivery.places) {
    const Place& place = plan.places[result.place];
    std::optional<double> right_mm;
    std::optional<double> up_mm;
    if (place.at) {
      right_mm = place.at->right.si() * 1000.0;
      up_mm = place.at->up.si() * 1000.0;
    }
    std::vector<DataCell> cells{test.record.title,
                                place.name,
                                plan.name,
                                what[result.place],
                                cell(right_mm),
                                cell(up_mm),
                                throws_on(result, delivery, test.record),
                                how_struck(result)};
    add_strongest(cells, result, delivery, test.record);
    table.rows.push_back(std::move(cells));
  }
}

}  // namespace

DataTable places_table(const WriteUp& write_up) {
  DataTable table{"places",
                  "Every place aimed at: what it is, its middle from the left and the lower edge "
                  "of the panel, its long side lying, and what struck it. The strongest hit is the "
                  "one that shows most, with its energy and the low end of the 95 % interval",
                  {{"record", ""},
                   {"place", ""},
                   {"series", ""},
                   {"what it is", ""},
                   {"right", "mm", 0},
                   {"up", "mm", 0},
                   {"throws that hit", ""},
                   {"at least the grade", ""},
                   for_machines({"strongest hit", "", 0}),
                   {"energy", "J", 2},
                   {"energy, low", "J", 2}},
                  {}};
  for (const Judged& judged : write_up.judged) {
    for (const SeriesDelivery& delivery : judged.assessment->delivery)
      add_series(table, *judged.test, delivery);
  }
  return table;
}

}  // namespace hailwright
