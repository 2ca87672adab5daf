#pragma once

#include <optional>
#include <string>
#include <vector>

#include "hailwright/evaluate/log_results.hpp"
#include "hailwright/logs/log_pairing.hpp"
#include "hailwright/logs/log_stream.hpp"
#include "hailwright/report/data_table.hpp"
#include "hailwright/report/document.hpp"

namespace hailwright {

/// Where in a record a log's stretches belong.
enum class LogPlace { before, after, sessions };

/// What was asked of a log, and what it came to: what `hailwright readings` prints.
struct ReadingsAnswer {
  std::vector<std::string> files;         ///< as typed
  std::vector<std::string> files_beside;  ///< a second log; may be empty
  LogFormat stated;                       ///< of the first log
  LogShape shape;
  LogQuestion question;
  LogTally tally;
  std::optional<LogTally> tally_beside;
  LogFindings findings;
  LogResults results;
  std::optional<ClockOffset> offset;  ///< when it was looked for
  Time offset_used{};                 ///< added to the second log's stamps
  LogPlace place = LogPlace::sessions;
  Diagnostics notes;  ///< of reading and analysis
};

/// The summary for a reader: what was read and what not, the picture, each stretch with its numbers
/// and their uncertainty, what was removed and why, gaps, counter, side by side, what was assumed,
/// the block to paste.
Document compose_readings(const ReadingsAnswer& answer);
/// One row a stretch, the whole log first; for `--format csv`.
DataTable readings_table(const ReadingsAnswer& answer);
/// For machines; its form is docs/schemas/readings.schema.json.
std::string readings_json(const ReadingsAnswer& answer);
/// The block to paste into a record: `before:`, `after:` or `sessions:`.
std::vector<std::string> readings_yaml(const ReadingsAnswer& answer);

/// Power and irradiance over time with the stretches, gaps and what the steady rule removed.
Figure log_picture(const std::string& id, const std::string& title, const LogFindings& findings,
                   std::string_view zone);
/// The same in characters for a terminal, lines of at most so many columns.
std::vector<std::string> log_sketch(const LogFindings& findings, std::string_view zone, int width);

}  // namespace hailwright
