#include <fmt/format.h>

#include <algorithm>

#include "input/table.hpp"
#include "input/table_columns.hpp"
#include "input/table_ice.hpp"
#include "input/table_labels.hpp"
#include "input/table_landing.hpp"

namespace hailwright::input {

namespace {

std::vector<ColumnRule> shot_columns() {
  return {
      {.name = "panel", .from_above = true},
      {.name = "series", .required = true, .from_above = true},
      {.name = "place", .required = true},
      {.name = "landed", .holds = Holds::landing, .required = true},
      {.name = "out", .holds = Holds::quantity, .measure = Measure::time, .unit = "s"},
      {.name = "ball"},
      {.name = "mass", .holds = Holds::quantity, .measure = Measure::mass, .unit = "g"},
      {.name = "diameter",
       .holds = Holds::quantity,
       .measure = Measure::length,
       .unit = "mm",
       .repeats = true},
      {.name = "speed", .holds = Holds::quantity, .measure = Measure::speed, .unit = "m/s"},
      {.name = "frames", .holds = Holds::number},
      {.name = "angle", .holds = Holds::quantity, .measure = Measure::angle, .unit = "deg"},
      {.name = "note"},
  };
}

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

  void read_ball(const CellRow& row, Shot& shot) {
    shot.ball = sheet_.text(row, "ball");
    if (const auto kilograms = sheet_.value(row, "mass", ball_mass, notes_)) {
      shot.mass = Mass::from_si(*kilograms);
    }
    shot.diameters = read_diameters(sheet_, row, notes_);
    if (shot.mass) check_density(*shot.mass, shot.diameters, row.origin, notes_);
  }

  void read_speed(const CellRow& row, Shot& shot) {
    const Cell* frames = sheet_.cell(row, "frames");
    const Cell* speed = sheet_.cell(row, "speed");
    if (frames != nullptr && speed != nullptr) {
      notes_
          .error("T15", speed->origin, "both \"frames\" and \"speed\" have a value in this row",
                 {"keep the one that was measured"})
          .related.push_back({frames->origin, "the other one"});
    }
    if (frames != nullptr && !protocol_.speed.video) {
      notes_
          .error("T21", frames->origin, "frames say nothing without the video's frame rate",
                 {"give the protocol  speed: {by: ..., video: 240 fps, length: 3.00 m}"})
          .related.push_back({protocol_.speed.origin, "the protocol's speed is here"});
    }
    shot.frames = read_frames(sheet_, row, notes_);
    if (const auto mps = sheet_.value(row, "speed", ball_speed, notes_)) {
      shot.speed = Speed::from_si(*mps);
    }
  }

  const Sheet& sheet_;
  const Protocol& protocol_;
  const Panel& panel_;
  Diagnostics& notes_;
};

}  // namespace

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
    if (whose == Whose::control) {
      notes
          .error("T24", row.origin,
                 fmt::format("a shot at the control panel {}", shown(labels.control)),
                 {"a control is never struck: correct the label of the row",
                  "if it was struck, it is no control: compare the panel with itself"})
          .related.push_back({labels.control_origin, "the control is named here"});
    }
    if (whose != Whose::struck) continue;
    shots.push_back(reader.read(row, static_cast<int>(shots.size()) + 1));
  }
  sorter.check_labels(false, notes);
  return shots;
}

}  // namespace hailwright::input
