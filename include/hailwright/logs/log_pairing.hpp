#pragma once

#include <cstdint>
#include <functional>
#include <memory>
#include <optional>

#include "hailwright/core/quantity.hpp"
#include "hailwright/logs/log_block.hpp"

namespace hailwright {

/// Gives the next rows of a log, false at its end: `LogStream::next`.
using NextBlock = std::function<bool(LogBlock&)>;

/// Two logs as one: the second log's power and temperature, at the first one's times, become
/// `power_beside` and `temperature_beside`. Between two rows of the second log no further apart
/// than the longest gap a straight line is taken, else the cell is blank.
class LogPairing {
public:
  /// @param offset  added to the stamps of the second log to make them the first one's
  LogPairing(NextBlock first, NextBlock second, Time offset, Time longest_gap);
  LogPairing(const LogPairing&) = delete;
  LogPairing& operator=(const LogPairing&) = delete;
  LogPairing(LogPairing&&) = delete;
  LogPairing& operator=(LogPairing&&) = delete;
  ~LogPairing();
  bool next(LogBlock& into);

private:
  class Work;
  std::unique_ptr<Work> work_;
};

/// How far the second clock was behind the first.
struct ClockOffset {
  /// To be added to the second log's stamps; nothing where the two do not show it.
  std::optional<Time> offset;
  Time standard_u;           ///< from the top's scatter over the log and the step of the logs
  double correlation = 0.0;  ///< at the top, of the changes of power from step to step
  double next_best = 0.0;    ///< largest at any other top
  Time searched;             ///< from minus this to plus this
  std::string why_not;       ///< "no clouds: the powers change too little", when there is none
};

/// Finds the offset between two clocks by the cross-correlation of the changes of power, which
/// clouds make in both logs at once. Both logs are read once, memory does not grow with them.
/// Nothing where the top is at the edge of the search, below 0.3, or less than 0.1 above another,
/// where both logs have fewer than 256 steps in common, or for more than 10 000 steps of search.
/// [ours] Contract: a search and a step above 0.
ClockOffset find_clock_offset(const NextBlock& first, const NextBlock& second, Time search,
                              Time step, Time longest_gap);

}  // namespace hailwright
