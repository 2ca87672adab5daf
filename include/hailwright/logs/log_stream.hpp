#pragma once

#include <cstddef>
#include <cstdint>
#include <functional>
#include <map>
#include <memory>
#include <string>
#include <string_view>
#include <vector>

#include "hailwright/core/diagnostic.hpp"
#include "hailwright/core/source.hpp"
#include "hailwright/logs/log_block.hpp"
#include "hailwright/logs/log_format.hpp"

namespace hailwright {

/// Counts of what was read. Every row is used, unreadable or out of order: none is lost.
struct LogTally {
  std::int64_t bytes = 0;
  std::int64_t lines = 0;
  std::int64_t rows = 0;          ///< given on
  std::int64_t unreadable = 0;    ///< rows whose cells could not be read
  std::int64_t out_of_order = 0;  ///< rows before the time of an earlier row: not given on
  std::int64_t same_time = 0;     ///< rows with the time of the row before: given on, and warned of
  std::int64_t comments = 0;
  std::int64_t repeated_headers = 0;
  std::map<std::string_view, std::int64_t> by_code;  ///< all problems, by their code
};

struct LogReadingPlan {
  unsigned threads = 1;             ///< 1 to 64; the result is the same for all
  std::int64_t tolerated_rows = 0;  ///< unreadable and out-of-order rows that are no error
  /// Called in order, now and then, with the bytes read so far (before decompression unknown: as
  /// read).
  std::function<void(std::int64_t bytes)> progress = {};
};

/// Reads a log of one or more files in sequence, in pieces of constant size: rows in order of time,
/// in UTC. Memory does not grow with the number of rows.
///
/// A file is read in pieces of 256 KiB cut at line breaks whatever way its bytes come in; pieces
/// are parsed on several threads and given on in their order, so that results have the same bits.
/// A row before the time of an earlier row is not given on and counted with the unreadable ones.
/// A local time that a clock change skipped is unreadable; one that it repeats is the first pass
/// until the stamps step back by at least half of what is repeated, then the second.
class LogStream {
public:
  /// @param sources  gets the files and the lines that messages show
  /// Contract: at least one file, threads 1 to 64.
  LogStream(std::vector<LogFile> files, LogFormat stated, LogReadingPlan plan, SourceSet& sources);
  LogStream(const LogStream&) = delete;
  LogStream& operator=(const LogStream&) = delete;
  LogStream(LogStream&&) = delete;
  LogStream& operator=(LogStream&&) = delete;
  ~LogStream();

  /// Recognises the first file. False, with errors in `notes`, when that cannot be done.
  bool open();
  /// Of the first file; later files must give the same roles. Contract: `open` gave true.
  [[nodiscard]] const LogShape& shape() const;
  /// The next rows; false at the end, or when reading cannot go on (then `notes` has an error).
  /// A block may have no rows. Reuses the memory of `into`.
  bool next(LogBlock& into);

  [[nodiscard]] const LogTally& tally() const;
  /// What was met so far, in order. After the end it also says when more rows could not be read
  /// than are tolerated: an error; fewer are a warning.
  [[nodiscard]] const Diagnostics& notes() const;

private:
  class Work;
  std::unique_ptr<Work> work_;
};

/// Offset from UTC of a time in a zone, "2026-06-14T10:02:03+02:00"; whole seconds unless the time
/// has a fraction.
/// @param zone  as `LogFormat::zone`; empty or unknown: UTC, written with Z
std::string iso_time(std::int64_t utc_us, std::string_view zone);

}  // namespace hailwright
