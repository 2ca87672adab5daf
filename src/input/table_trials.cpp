#include <fmt/format.h>

#include "input/table.hpp"
#include "input/table_columns.hpp"
#include "input/table_ice.hpp"

namespace hailwright::input {

namespace {

std::vector<ColumnRule> trial_columns() {
  return {
      // Trials are shared by all panels of the day; the column is allowed and tells nothing.
      {.name = "panel", .from_above = true},
      {.name = "setting", .from_above = true},
      {.name = "frames", .holds = Holds::number},
      {.name = "speed", .holds = Holds::quantity, .measure = Measure::speed, .unit = "m/s"},
      {.name = "landed"},
      {.name = "note"},
  };
}

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

std::vector<Trial> read_trials(const TableSource& source, Diagnostics& notes) {
  const Sheet sheet(source, trial_columns(), notes);
  std::vector<Trial> trials;
  if (!sheet.usable()) return trials;
  if (!sheet.has("frames") && !sheet.has("speed")) {
    notes.error("T08", sheet.header(), "neither \"frames\" nor \"speed\" is a column",
                {"the header needs a cell  frames  or  speed m/s"});
    return trials;
  }
  MessageLimit limit(notes);
  for (const CellRow& row : sheet.rows()) {
    if (limit.reached(row.origin, notes)) break;
    Trial trial;
    trial.origin = row.origin;
    trial.setting = sheet.text(row, "setting");
    const Cell* frames = sheet.cell(row, "frames");
    const Cell* speed = sheet.cell(row, "speed");
    if (frames == nullptr && speed == nullptr) {
      notes.error("T12", row.origin, "this trial has neither frames nor a speed",
                  {"a trial whose speed was not measured is no trial: leave the row out"});
    } else if (frames != nullptr && speed != nullptr) {
      notes
          .error("T15", speed->origin, "both \"frames\" and \"speed\" have a value in this row",
                 {"keep the one that was measured"})
          .related.push_back({frames->origin, "the other one"});
    }
    trial.frames = read_frames(sheet, row, notes);
    if (const auto mps = sheet.value(row, "speed", ball_speed, notes)) {
      trial.speed = Speed::from_si(*mps);
      trial.step = Speed::from_si(sheet.typed_step(row, "speed").value_or(0.0));
    }
    trial.hit = read_hit(sheet, row, notes);
    trials.push_back(std::move(trial));
  }
  return trials;
}

}  // namespace hailwright::input
