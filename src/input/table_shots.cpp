#include <fmt/format.h>

#include <algorithm>

#include "input/table.hpp"
#include "input/table_clock.hpp"
#include "input/table_columns.hpp"
#include "input/table_ice.hpp"
#include "input/table_labels.hpp"
#include "input/table_landing.hpp"
#include "input/table_rules.hpp"
#include "input/table_speed.hpp"

namespace hailwright::input {

namespace {

class ShotReader {
public:
  ShotReader(const Sheet& sheet, const Protocol& protocol, const Panel& panel, Diagnostics& notes)
      : sheet_(sheet), protocol_(protocol), panel_(panel), notes_(notes) {}

  Shot read(const CellRow& row, int number) {
    Shot shot;
    shot.origin = row.origin;
    shot.number = number;
    const Place* place = read_aim(row, shot);
    if (const Cell* cell = sheet_.required_cell(row, "landed", notes_)) {
      if (const auto landed = read_landing(sheet_, *cell, place, panel_, notes_)) {
        shot.landing = landed->kind;
        shot.where = landed->where;
      }
    }
    read_clock(row, shot, place != nullptr);
    read_ball(row, shot);
    read_speed(row, shot);
    constexpr Limits out_limits{0.0, 3600.0, false, "from 0 s to 1 h"};
    if (const auto seconds = sheet_.value(row, "out", out_limits, notes_)) {
      shot.out = Time::from_si(*seconds);
    }
    constexpr Limits angle_limits{0.0, 1.5707963267948966, false,
                                  "from 0 to 90 deg, 0 is straight onto the panel"};
    if (const auto radians = sheet_.value(row, "angle", angle_limits, notes_)) {
      shot.angle = Angle::from_si(*radians);
    }
    shot.photo = sheet_.text(row, "photo");
    shot.note = sheet_.text(row, "note");
    return shot;
  }

private:
  /// Series and place; the place aimed at, or nullptr when one of them is wrong.
  const Place* read_aim(const CellRow& row, Shot& shot) {
    const Cell* series_cell = sheet_.required_cell(row, "series", notes_);
    const Cell* place_cell = sheet_.required_cell(row, "place", notes_);
    if (series_cell == nullptr) return nullptr;
    const auto series =
        std::find_if(protocol_.series.begin(), protocol_.series.end(),
                     [&](const SeriesPlan& s) { return s.name == series_cell->text; });
    if (series == protocol_.series.end()) {
      report_series(*series_cell);
      return nullptr;
    }
    shot.series = static_cast<std::size_t>(series - protocol_.series.begin());
    check_order(*series_cell, shot);
    if (place_cell == nullptr) return nullptr;
    const auto place = std::find_if(series->places.begin(), series->places.end(),
                                    [&](const Place& p) { return p.name == place_cell->text; });
    if (place == series->places.end()) {
      report_place(*place_cell, *series);
      return nullptr;
    }
    shot.place = static_cast<std::size_t>(place - series->places.begin());
    return &*place;
  }

  void report_series(const Cell& cell) {
    std::vector<std::string> known;
    for (const SeriesPlan& series : protocol_.series)
      known.push_back(series.name);
    notes_.error("T17", cell.origin, fmt::format("the protocol has no series {}", shown(cell.text)),
                 word_hints(cell.text, known));
  }

  void report_place(const Cell& cell, const SeriesPlan& series) {
    std::vector<std::string> hints;
    for (const SeriesPlan& other : protocol_.series) {
      const bool here = std::any_of(other.places.begin(), other.places.end(),
                                    [&](const Place& p) { return p.name == cell.text; });
      if (here) hints.push_back(fmt::format("this place belongs to series \"{}\"", other.name));
    }
    if (hints.empty()) {
      std::vector<std::string> known;
      for (const Place& place : series.places)
        known.push_back(place.name);
      hints = word_hints(cell.text, known);
    }
    notes_
        .error("T18", cell.origin,
               fmt::format("series \"{}\" has no place {}", series.name, shown(cell.text)),
               std::move(hints))
        .related.push_back({series.origin, "the series is planned here"});
  }

  /// The protocol's series are thrown one after the other, the weakest first. The first throw
  /// behind one of a harder series is enough.
  void check_order(const Cell& cell, const Shot& shot) {
    if (!hardest_ || shot.series >= hardest_->series) {
      hardest_ = Behind{shot.series, shot.origin, shot.number};
      return;
    }
    if (order_reported_) return;
    order_reported_ = true;
    const std::string weaker = shown(protocol_.series[shot.series].name);
    const std::string harder = shown(protocol_.series[hardest_->series].name);
    notes_
        .error(
            "T36", cell.origin,
            fmt::format("throw {}, of series {}, stands behind throw {}, of the harder series {}",
                        shot.number, weaker, hardest_->number, harder),
            {"rows stand in the order in which the balls were thrown, the weakest series first: "
             "check the series of both rows, and their order; looks  after throw ...  count by "
             "it",
             fmt::format("if it was thrown that late, it tells nothing of series {}, since the "
                         "harder ball may have done the damage: leave the row out, and say so "
                         "under  unlike_protocol",
                         weaker)})
        .related.push_back({hardest_->origin, "the throw of the harder series"});
  }

  /// Time does not go back from throw to throw; `aimed` says that the row's place is known.
  void read_clock(const CellRow& row, Shot& shot, bool aimed) {
    const Cell* cell = sheet_.cell(row, "clock");
    if (cell == nullptr) return;
    const auto moment = read_moment(
        *cell, "a time between gates or sounds has its unit in the header:  time ms", notes_);
    if (!moment) return;
    shot.minute = moment->minute;
    if (!aimed) return;
    if (latest_ && moment->minute < latest_->minute) {
      report_time_back(*latest_, *moment, "the throws",
                       {"rows stand in the order in which the balls were thrown, all on the day of "
                        "the record"},
                       notes_);
      return;
    }
    latest_ = moment;
  }

  void read_ball(const CellRow& row, Shot& shot) {
    shot.ball = sheet_.text(row, "ball");
    if (const auto kilograms = sheet_.value(row, "mass", ball_mass, notes_)) {
      shot.mass = Mass::from_si(*kilograms);
    }
    shot.diameters = read_diameters(sheet_, row, notes_);
    if (shot.mass) check_density(*shot.mass, shot.diameters, row.origin, notes_);
  }

  void read_speed(const CellRow& row, Shot& shot) {
    const SpeedReading reading = read_speed_cells(sheet_, row, notes_);
    shot.speed = reading.speed;
    shot.speed_step = reading.speed_step;
    shot.frames = reading.frames;
    shot.moved = reading.moved;
    shot.time = reading.time;
    shot.time_step = reading.time_step;
    const SpeedMethod& method = protocol_.speed;
    if (shot.frames && method.measures() && method.way() == SpeedWay::typed) {
      notes_
          .error("T21", sheet_.cell(row, "frames")->origin,
                 "frames say nothing without the video's frame rate",
                 {"give the protocol  speed: {by: ..., video: 240 fps, length: 3.00 m}"})
          .related.push_back({method.origin, "the protocol's speed is here"});
      return;
    }
    fits_method(reading, method, row.origin, notes_);
  }

  const Sheet& sheet_;
  const Protocol& protocol_;
  const Panel& panel_;
  /// A throw that others stand behind.
  struct Behind {
    std::size_t series = 0;
    SourceSpan origin;
    int number = 0;
  };

  std::optional<Moment> latest_;   ///< of the throws that were told when
  std::optional<Behind> hardest_;  ///< the last one of the hardest series so far
  bool order_reported_ = false;
  Diagnostics& notes_;
};

void report_unstruck(const CellRow& row, const Whose& whose, const TableLabels& labels,
                     Diagnostics& notes) {
  const bool control = whose.role == Role::control;
  const std::string& label = control ? labels.control : labels.siblings[whose.unit].label;
  const SourceSpan named = control ? labels.control_origin : labels.siblings[whose.unit].origin;
  const std::string_view word = control ? "control" : "sibling";
  const std::string_view mend = control ? "compare the panel with itself" : "take it off the list";
  notes
      .error("T24", row.origin, fmt::format("a shot at the {} panel {}", word, shown(label)),
             {fmt::format("a {} is never struck: correct the label of the row", word),
              fmt::format("if it was struck, it is no {}: {}", word, mend)})
      .related.push_back({named, fmt::format("the {} is named here", word)});
}

}  // namespace

std::vector<ColumnRule> shot_columns() {
  return {
      {.name = "panel", .from_above = true, .means = "label of the panel, as in its record"},
      {.name = "series",
       .required = true,
       .from_above = true,
       .means = "name of the series, as in the protocol"},
      {.name = "place", .required = true, .means = "place aimed at, as in the protocol's series"},
      {.name = "landed",
       .holds = Holds::landing,
       .required = true,
       .means = "in (the place aimed at), miss (not on the panel), broke (in pieces before it), "
                "8 x 12 mm (right x up from the middle of the place) or at 312 x 480 mm (from the "
                "panel's lower left corner)"},
      {.name = "out",
       .holds = Holds::quantity,
       .measure = Measure::time,
       .unit = "s",
       .means = "from the freezer to the impact"},
      {.name = "ball",
       .in_new = 0,
       .means = "kind, or single ball, of the table balls; blank: the kind of the series' name"},
      {.name = "mass",
       .holds = Holds::quantity,
       .measure = Measure::mass,
       .unit = "g",
       .in_new = 0,
       .means = "of this ball, where it was weighed itself"},
      {.name = "diameter",
       .holds = Holds::quantity,
       .measure = Measure::length,
       .unit = "mm",
       .repeats = true,
       .in_new = 0,
       .means = "of this ball, where it was measured itself"},
      {.name = "speed",
       .holds = Holds::quantity,
       .measure = Measure::speed,
       .unit = "m/s",
       .in_new = 0,
       .means = "of this shot, where it was measured"},
      {.name = "frames",
       .holds = Holds::number,
       .in_new = 0,
       .means = "instead of the speed: video frames over the protocol's length"},
      moved_column(),
      time_column(),
      {.name = "clock",
       .headed = "time",
       .holds = Holds::clock,
       .in_new = 0,
       .means = "when it was thrown, hours and minutes, 24 hours a day: 13:05"},
      {.name = "angle",
       .holds = Holds::quantity,
       .measure = Measure::angle,
       .unit = "deg",
       .in_new = 0,
       .means = "between the flight and the straight line onto the panel"},
      {.name = "photo", .in_new = 0, .means = "file of a picture of where it hit"},
      {.name = "note", .means = "what you want to remember"},
  };
}

std::vector<Shot> read_shots(const TableSource& source, const Protocol& protocol,
                             const Panel& panel, const TableLabels& labels, Diagnostics& notes) {
  const Sheet sheet(source, shot_columns(), notes);
  std::vector<Shot> shots;
  if (!sheet.usable()) return shots;
  ShotReader reader(sheet, protocol, panel, notes);
  PanelSorter sorter(sheet, labels);
  MessageLimit limit(notes);
  for (const CellRow& row : sheet.rows()) {
    if (limit.reached(row.origin, notes)) return shots;
    const auto whose = sorter.sort(row, notes);
    if (!whose || whose->another) continue;
    if (whose->role != Role::struck) {
      report_unstruck(row, *whose, labels, notes);
      continue;
    }
    shots.push_back(reader.read(row, static_cast<int>(shots.size()) + 1));
  }
  sorter.check_labels(false, notes);
  return shots;
}

}  // namespace hailwright::input
