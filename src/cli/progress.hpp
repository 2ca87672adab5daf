#pragma once

#include <cstdint>
#include <functional>
#include <optional>
#include <string>

namespace hailwright::cli {

/// Seconds since some moment, never running back.
double steady_seconds();

/// A line about work that lasts over a second. It is written over itself, ten times a second at
/// most, and leaves nothing behind.
class ProgressLine {
public:
  using Write = std::function<void(const std::string&)>;
  using Clock = std::function<double()>;

  /// @param watched  false: nothing is ever written
  ProgressLine(Write write, bool watched, Clock clock);

  /// Seconds since the beginning when the line is due to be written, nothing when it is not.
  [[nodiscard]] std::optional<double> due() const;
  void show(const std::string& line);
  /// Takes the line away, if there is one.
  void erase();

private:
  Write write_;
  bool watched_;
  Clock clock_;
  double begun_;
  double shown_at_ = 0.0;
  std::size_t width_ = 0;  ///< of the line as it stands
};

/// About random trials: which share is done and how fast.
class TrialProgress {
public:
  TrialProgress(ProgressLine::Write write, bool watched,
                ProgressLine::Clock clock = steady_seconds);
  /// So many trials of a run of at most so many are done. A smaller number begins another run.
  void report(std::int64_t done, std::int64_t most);
  void erase() { line_.erase(); }

private:
  ProgressLine line_;
  std::int64_t done_ = 0;      ///< of this run
  std::int64_t finished_ = 0;  ///< of the runs before
};

/// About a log that is read: which share, how fast and how long still.
class ReadingProgress {
public:
  /// @param total  bytes to read; nothing where that is not known, as of a pipe
  ReadingProgress(ProgressLine::Write write, bool watched, std::optional<std::int64_t> total,
                  ProgressLine::Clock clock = steady_seconds);
  /// So many bytes are read.
  void report(std::int64_t bytes);
  void erase() { line_.erase(); }

private:
  ProgressLine line_;
  std::optional<std::int64_t> total_;
};

}  // namespace hailwright::cli
