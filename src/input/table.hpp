#pragma once

#include <cstdint>
#include <optional>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

#include "hailwright/core/diagnostic.hpp"
#include "hailwright/core/source.hpp"
#include "hailwright/model/panel.hpp"
#include "hailwright/model/protocol.hpp"
#include "hailwright/model/record.hpp"

/// The seam between the record's reader and the tables. docs/tables.md says what a table may hold.
namespace hailwright::input {

/// Where a table's text begins in its file: a CSV file begins at line 1, column 1; a YAML `|` block
/// begins at the line after its key, every line indented by `first_column - 1` characters that
/// `text` no longer has.
struct TableSource {
  std::uint32_t file;
  int first_line = 1;
  int first_column = 1;
  std::string text;
};

/// Reads the table of balls: kinds, or single ones. Masses up to 1 kg a ball, diameters 5 mm to
/// 150 mm. Warns of a density that ice cannot have. What could be read comes back; a value made
/// beside an error is not to be used.
std::vector<BallKind> read_balls(const TableSource& source, Diagnostics& notes);

/// Reads the trial shots at the dummy: frames (whole or half) or a speed up to 100 m/s each.
/// Whether frames can be turned into a speed is the caller's check.
std::vector<Trial> read_trials(const TableSource& source, Diagnostics& notes);

/// How the tables call the panels of one record.
struct TableLabels {
  std::string struck;
  std::string control;
  SourceSpan struck_origin, control_origin;
  bool control_expected;
  std::vector<Sibling> siblings{};  ///< those that are compared with; none otherwise
};

/// Reads the shots at this record's panel, numbered from 1 in the order of the rows; rows of other
/// panels are left out. `panel` is the struck panel: a hit outside its outline is an error.
std::vector<Shot> read_shots(const TableSource& source, const Protocol& protocol,
                             const Panel& panel, const TableLabels& labels, Diagnostics& notes);

/// What is known of the rows of a set-up: input/table_setups.hpp.
struct SetupRows;

/// Reads the readings of this record's panels. Adds the set-ups found to `setups` (those listed in
/// the record and those of its logs are already there, in order), dated `day`.
/// @param of_logs  the rows that logs have given, by set-up
/// A skipped reading that lacks one of power, irradiance and temperature is not `measured`: there
/// is nothing to compute with. Every other reading has all three.
std::vector<Reading> read_readings(const TableSource& source, const Protocol& protocol,
                                   const TableLabels& labels, const std::string& day,
                                   std::vector<Setup>& setups,
                                   const std::vector<SetupRows>& of_logs, Diagnostics& notes);

/// "before 1", "after 1", "after small 1", "baseline 1", "later 1": stage and number, the number 1
/// when none is given. Of the series whose names fit, the longest name counts. nullopt and an error
/// otherwise. Used for the record's `setups:` too.
std::optional<std::pair<StageId, int>> read_setup_name(std::string_view name, SourceSpan origin,
                                                       const Protocol& protocol,
                                                       Diagnostics& notes);

}  // namespace hailwright::input
