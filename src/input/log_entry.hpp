#pragma once

#include <cstdint>
#include <optional>
#include <string>
#include <utility>
#include <vector>

#include "hailwright/model/record.hpp"
#include "input/map_reader.hpp"

namespace hailwright::input {

inline constexpr KeyList log_keys{
    "this log", "log columns separator decimal dates zone longest_gap tolerate load_on wraps_at "
                "steady cut plateaus setups"};
inline constexpr KeyList session_log_keys{
    "this log of sessions", "log columns separator decimal dates zone longest_gap tolerate load_on "
                            "wraps_at steady cut plateaus times"};
inline constexpr KeyList log_setup_keys{"this set-up of a log", "name from to"};
inline constexpr KeyList session_keys{"this session", "name from to"};
inline constexpr KeyList steady_keys{"steady", "window irradiance_change ramp temperature_change"};
inline constexpr KeyList plateau_keys{"plateaus", "shortest shortest_off"};

/// The key of the record under which a log stands.
enum class LogStage { before, after, sessions };
std::string_view word_of(LogStage stage);

/// Stage and number of a set-up.
using SetupId = std::pair<StageId, int>;

/// A log as the record states it, not opened yet.
struct LogEntry {
  LogStage stage = LogStage::before;
  /// Its origin, files, format, and the question but for what the log itself tells.
  LogUse use;
  SourceSpan zone_origin;
  std::vector<SourceSpan> file_places;  ///< goes along with `use.files`
  SourceSpan wraps_at_place;            ///< of `wraps_at`, where stated
  std::vector<SetupId> setups;          ///< goes along with the spans of `before` and `after`
  std::optional<Time> longest_gap;      ///< where stated
  std::optional<Time> steady_window;    ///< where stated
  int tolerated_rows = 0;
};

/// Reads one entry of `before`, `after` or `sessions`. Nothing, with errors, when the log is not to
/// be opened.
/// @param protocol  for the names of its series
std::optional<LogEntry> read_log_entry(const Node& node, LogStage stage, const Protocol& protocol,
                                       SourceSpan owner, Diagnostics& notes);

/// Whether a set-up of this stage may come from a log under this key.
bool belongs_under(LogStage key, const StageId& stage);

}  // namespace hailwright::input
