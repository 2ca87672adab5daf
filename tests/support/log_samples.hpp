#pragma once

#include <algorithm>
#include <cstring>
#include <functional>
#include <memory>
#include <string>
#include <utility>
#include <vector>

#include "hailwright/logs/log_format.hpp"
#include "hailwright/logs/log_stream.hpp"

// Small logs and ways to deliver them, for the tests of the layer `logs`.
namespace hailwright::test {

inline Unit unit_named(std::string_view symbol, Measure measure) {
  return *find_unit(symbol, measure);
}

/// time, power [W], temperature [degC], note: the last column is not read.
inline LogShape small_shape() {
  LogShape shape;
  shape.headers = {"time", "power [W]", "temperature [degC]", "note"};
  shape.used = {
      {LogRole::time, 0, {}, "time"},
      {LogRole::power, 1, unit_named("W", Measure::power), "power [W]"},
      {LogRole::temperature, 2, unit_named("degC", Measure::temperature), "temperature [degC]"}};
  return shape;
}

/// A source that gives so many bytes at a time; `portion` is asked before each.
inline LogBytes bytes_of(std::string text, std::function<std::size_t()> portion,
                         std::string problem = {}) {
  auto at = std::make_shared<std::size_t>(0);
  auto kept = std::make_shared<std::string>(std::move(text));
  return {[=](char* into, std::size_t most) {
            const std::size_t count = std::min({most, portion(), kept->size() - *at});
            std::memcpy(into, kept->data() + *at, count);
            *at += count;
            return count;
          },
          [problem] { return problem; }};
}

inline LogBytes bytes_of(std::string text) {
  return bytes_of(std::move(text), [] { return std::size_t{1} << 30U; });
}

/// All that a stream gave.
struct ReadLog {
  bool opened = false;
  LogBlock rows;  ///< of all blocks; lines counted in their files, from 1
  std::vector<std::size_t> files;
  LogTally tally;
  std::string notes;
  std::vector<std::string> codes;
};

inline void append_block(const LogBlock& block, ReadLog& log) {
  for (const MarkerChange& change : block.markers)
    log.rows.markers.push_back({log.rows.rows() + change.row, change.text});
  for (std::size_t i = 0; i < block.rows(); ++i) {
    log.rows.time_us.push_back(block.time_us[i]);
    log.rows.line.push_back(static_cast<std::uint32_t>(block.first_line) + block.line[i]);
    log.files.push_back(block.file);
  }
  for (std::size_t role = 0; role < log_roles; ++role)
    log.rows.values[role].insert(log.rows.values[role].end(), block.values[role].begin(),
                                 block.values[role].end());
}

inline ReadLog read_log(std::vector<LogFile> files, const LogFormat& format,
                        const LogReadingPlan& plan = {}) {
  SourceSet sources;
  LogStream stream(std::move(files), format, plan, sources);
  ReadLog log;
  log.opened = stream.open();
  LogBlock block;
  while (stream.next(block))
    append_block(block, log);
  log.tally = stream.tally();
  log.notes = render_diagnostics(stream.notes(), sources);
  for (const Diagnostic& note : stream.notes().items())
    log.codes.emplace_back(note.code);
  return log;
}

inline LogFormat zoned(std::string zone) {
  LogFormat format;
  format.zone = std::move(zone);
  return format;
}

inline ReadLog read_log(const std::string& text, const LogReadingPlan& plan = {},
                        const std::string& zone = "+00:00") {
  return read_log({{"day.csv", bytes_of(text)}}, zoned(zone), plan);
}

}  // namespace hailwright::test
