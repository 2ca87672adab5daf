#pragma once

#include <cstdint>
#include <optional>
#include <string>

#include "logs/log_cut_stretch.hpp"

namespace hailwright::detail {

/// Counter and integral may differ by so much of the integral before it is told, or by one step of
/// the counter. [ours]
inline constexpr double counter_agrees = 0.02;
/// A stretch of fewer rows has no scatter of its own; M2.
inline constexpr std::int64_t fewest_rows = 20;

/// Where the energy counter showed less than in the row before.
struct CounterFall {
  LogPlace place;
  double from_j = 0.0, to_j = 0.0;
};

/// The first fall of each kind.
struct CounterFalls {
  std::optional<CounterFall> reset, wrap, back;
};

/// What a log came to, with what its warnings are made of.
struct LogCourse {
  const LogQuestion& question;
  const LogStretch& whole;
  const CutResult& cut;
  bool whole_complete = true;
  CounterFalls falls;
};

/// "0.5 s", "12 s", "2 min 5 s", "3 h 20 min", "2 d 4 h": two units at most.
std::string duration_words(double seconds);

/// Warns of gaps, falls of the counter, a load that clips, a counter that disagrees with the
/// integral, spans outside the log, markers that come back and stretches with too few rows. What is
/// said of the whole is not said of each stretch again; of a log that is cut, only the gaps inside
/// its stretches are told: in the time between set-ups nothing is measured.
void warn_of(const LogCourse& course, Diagnostics& notes);

}  // namespace hailwright::detail
