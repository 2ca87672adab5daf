#pragma once

#include <string>

#include "hailwright/input/readers.hpp"
#include "input/log_setups.hpp"
#include "input/map_reader.hpp"

namespace hailwright::input {

/// How the files that a record names are reached.
struct LogFiles {
  const std::string& record;  ///< its own path, from whose folder the logs are taken
  const Loader& load;
  const LogOpener& open;  ///< empty: logs are fetched with `load`
  SourceSet& sources;
};

/// So many bytes of a log are fetched with a loader where there is no opener.
inline constexpr std::size_t largest_fetched_log = 64U << 20U;

/// Taken for the normalised power of a session where they are not stated: the defaults of a
/// judgement (evaluate/defaults.hpp), which lie above this layer and are compared there.
inline constexpr TemperatureCoefficient assumed_coefficient =
    TemperatureCoefficient::from_si(-0.0035);
inline constexpr TemperatureDifference assumed_cell_above_back =
    TemperatureDifference::from_si(3.0);

/// So many rows of logs may become readings of one record.
inline constexpr std::size_t most_log_rows = 200'000;

/// Reads `before`, `after` and `sessions` of a record and the logs that they name: into
/// `Record::logs` and `Record::sessions`, the set-ups with their readings into `into`. The record
/// has its protocol and panels by then.
/// @param with_setups  false: the protocol has errors, so that only sessions are read
void read_record_logs(const MapReader& map, const LogFiles& files, const Protocol& protocol,
                      bool with_setups, const LogSetupsInto& into, Diagnostics& notes);

}  // namespace hailwright::input
