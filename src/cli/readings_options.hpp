#pragma once

#include <cstdint>
#include <optional>
#include <string>
#include <vector>

#include "hailwright/core/diagnostic.hpp"
#include "hailwright/logs/log_analysis.hpp"
#include "hailwright/logs/log_format.hpp"
#include "hailwright/report/compose_readings.hpp"

namespace hailwright::cli {

/// Every option as text; empty where it was not given.
struct ReadingsOptions {
  std::vector<std::string> files;  ///< of one log, in sequence; "-" is standard input
  // How they are written.
  std::string columns, zone, separator, decimal, dates;
  bool suggest = false;
  // What is cut out.
  std::string cut;
  std::vector<std::string> spans;  ///< name, from, to of each
  std::string shortest, shortest_off;
  // What counts.
  bool steady = false, not_steady = false;
  std::string window, irradiance_change, ramp, temperature_change;
  std::string longest_gap, load_on, counter_wraps, tolerate;
  // A second log.
  std::vector<std::string> beside;
  std::string beside_columns, offset, offset_search;
  // Instruments and panels.
  std::string protocol, panel, beside_panel;
  std::string place, threads;
  std::string format = "text";
};

/// A moment as typed.
struct TypedTime {
  std::string text;
  std::int64_t us = 0;  ///< since 1970-01-01T00:00: UTC, or as the clocks of the log's zone show
  bool utc = false;     ///< it was typed with its offset
};

/// A stretch as typed.
struct TypedSpan {
  std::string name;
  TypedTime from, to;
};

/// What the options ask for, as far as they tell it without a file.
struct ReadingsRequest {
  LogFormat stated;      ///< but for the columns: what goes before a column map
  LogQuestion question;  ///< but for spans, gap, zone, and what a panel tells
  std::vector<TypedSpan> spans;
  std::optional<Time> longest_gap;    ///< where stated
  std::optional<Time> steady_window;  ///< where stated
  std::optional<Time> offset;         ///< of the second log, where stated
  bool find_offset = false;
  Time offset_search;
  std::int64_t tolerated_rows = 0;
  unsigned threads = 1;
  LogPlace place = LogPlace::sessions;
};

/// The options as a request; every mistake is named.
Checked<ReadingsRequest> read_readings_options(const ReadingsOptions& options);

/// The stretches in UTC, their times taken in this zone where they carry no offset.
/// @param zone  as `LogFormat::zone`; may be empty
std::vector<LogSpan> spans_in_utc(const std::vector<TypedSpan>& spans, const std::string& zone,
                                  Diagnostics& notes);

/// Says of each statement of a column map that an option goes before another one.
void warn_of_overruled(const LogFormat& options, const LogFormat& map, Diagnostics& notes);

/// A format with what the options state about it in front.
LogFormat stated_over(const LogFormat& options, LogFormat map);

}  // namespace hailwright::cli
