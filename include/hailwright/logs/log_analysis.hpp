#pragma once

#include <array>
#include <cstddef>
#include <cstdint>
#include <memory>
#include <optional>
#include <string>
#include <vector>

#include "hailwright/core/diagnostic.hpp"
#include "hailwright/core/source.hpp"
#include "hailwright/logs/log_block.hpp"
#include "hailwright/logs/log_stretch.hpp"

namespace hailwright {

/// A stretch that is cut out by time; both ends belong to it.
struct LogSpan {
  std::string name;
  std::int64_t from_us = 0, to_us = 0;
  SourceSpan origin;
};

/// Set-ups found by themselves: the panel gives power (load on) from the first row at or above
/// `StretchRules::load_on` until it has been below for `shortest_off` or the log has a gap of that
/// length. A cloud does not end one: it would make two set-ups of one. A stretch counts when it has
/// at least `shortest` of steady time.
struct PlateauRule {
  Time shortest = Time::from_si(120.0);     ///< [ours]
  Time shortest_off = Time::from_si(60.0);  ///< to unplug, mount and aim anew takes longer [ours]
};

/// How stretches are cut out of a log.
struct LogCut {
  enum class Kind { whole, times, markers, plateaus } kind = Kind::whole;
  std::vector<LogSpan> spans;  ///< of `times`; they may overlap
  PlateauRule plateaus;
};

struct LogQuestion {
  StretchRules rules;
  LogCut cut;
  std::size_t kept_rows = 0;  ///< rows to keep over all stretches; 0: none
  std::uint32_t first_file =
      0;             ///< number in the source set of file 0 of the stream; others follow
  std::string zone;  ///< in which messages write times, as for `iso_time`; empty: UTC
};

/// The course of a log in a fixed number of steps, for pictures.
struct LogTrace {
  std::int64_t from_us = 0;  ///< where the first point begins: half a usual step before the log
  double step_s = 0.0;       ///< of one point
  struct Point {
    std::int64_t rows = 0;                                         ///< 0: nothing was logged
    double power_least = 0.0, power_mean = 0.0, power_most = 0.0;  ///< [W]; NaN: blank
    double irradiance_mean = 0.0;                                  ///< [W/m2]; NaN: none
    double beside_mean = 0.0;                                      ///< [W]; NaN: none
  };
  std::vector<Point> points;  ///< at most 1024
};

/// What a log came to.
struct LogFindings {
  LogStretch whole;                   ///< all rows
  std::vector<LogStretch> stretches;  ///< by the cut, in order; empty for Kind::whole
  LogTrace trace;
  double usual_step_s = 0.0;  ///< median step of time, to 1 part in 50; 0 for fewer than two rows
};

/// Takes the rows of a log in order and cuts, measures and traces them.
class LogAnalysis {
public:
  explicit LogAnalysis(const LogQuestion& question);
  LogAnalysis(const LogAnalysis&) = delete;
  LogAnalysis& operator=(const LogAnalysis&) = delete;
  LogAnalysis(LogAnalysis&&) = delete;
  LogAnalysis& operator=(LogAnalysis&&) = delete;
  ~LogAnalysis();

  void take(const LogBlock& block);
  /// Ends it. `notes` gets what is to be warned of: gaps, resets, clipping, a counter that
  /// disagrees with the integral, a span without rows, markers that come back.
  LogFindings finish(Diagnostics& notes);

private:
  class Work;
  std::unique_ptr<Work> work_;
};

}  // namespace hailwright
