#include <fmt/format.h>

#include "input/table.hpp"
#include "input/table_columns.hpp"
#include "input/table_rules.hpp"
#include "input/table_speed.hpp"

namespace hailwright::input {

namespace {

/// True for `in` or a blank.
bool read_hit(const Sheet& sheet, const CellRow& row, Diagnostics& notes) {
  const Cell* cell = sheet.cell(row, "landed");
  if (cell == nullptr || cell->text == "in") return true;
  if (cell->text == "miss") return false;
  notes.error("T16", cell->origin,
              fmt::format("{} does not say where a trial landed", shown(cell->text)),
              word_hints(cell->text, {"in", "miss"}));
  return true;
}

}  // namespace

std::vector<ColumnRule> trial_columns() {
  return {
      {.name = "panel",
       .from_above = true,
       .in_new = 0,
       .means = "tells nothing: trials are shared by all panels of the day"},
      {.name = "setting",
       .from_above = true,
       .means = "setting of the launcher, as in the protocol's series"},
      {.name = "frames",
       .holds = Holds::number,
       .means = "video frames of the flight over the protocol's length, whole or half"},
      {.name = "speed",
       .holds = Holds::quantity,
       .measure = Measure::speed,
       .unit = "m/s",
       .in_new = 0,
       .means = "instead of frames, where the speed itself was measured"},
      moved_column(),
      time_column(),
      {.name = "landed", .means = "in (also when blank) or miss"},
      {.name = "note", .means = "what you want to remember"},
  };
}

std::vector<Trial> read_trials(const TableSource& source, Diagnostics& notes) {
  const Sheet sheet(source, trial_columns(), notes);
  std::vector<Trial> trials;
  if (!sheet.usable()) return trials;
  if (!has_speed_column(sheet)) {
    notes.error("T08", sheet.header(), "no column tells the speed of a trial",
                {"the header needs a cell  frames,  speed m/s  or  time ms, as the protocol knows "
                 "the speed"});
    return trials;
  }
  MessageLimit limit(notes);
  for (const CellRow& row : sheet.rows()) {
    if (limit.reached(row.origin, notes)) break;
    Trial trial;
    trial.origin = row.origin;
    trial.setting = sheet.text(row, "setting");
    const std::size_t before = notes.items().size();
    const SpeedReading reading = read_speed_cells(sheet, row, notes);
    if (is_blank(reading) && notes.items().size() == before) {
      notes.error("T12", row.origin, "this trial tells no speed",
                  {"a trial whose speed was not measured is no trial: leave the row out"});
    }
    trial.frames = reading.frames;
    trial.speed = reading.speed;
    trial.step = reading.speed_step;
    trial.moved = reading.moved;
    trial.time = reading.time;
    trial.time_step = reading.time_step;
    trial.hit = read_hit(sheet, row, notes);
    trials.push_back(std::move(trial));
  }
  return trials;
}

}  // namespace hailwright::input
