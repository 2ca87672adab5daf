#pragma once

#include <cstdint>
#include <functional>
#include <string>

namespace hailwright::cli {

/// Seconds since some moment, never running back.
double steady_seconds();

/// One line about random trials that last over a second: which share is done and how fast. It is
/// written over itself and leaves nothing behind.
class TrialProgress {
public:
  using Write = std::function<void(const std::string&)>;
  using Clock = std::function<double()>;

  /// @param watched  false: nothing is ever written
  TrialProgress(Write write, bool watched, Clock clock = steady_seconds);

  /// So many trials of a run of at most so many are done. A smaller number begins another run.
  void report(std::int64_t done, std::int64_t most);
  /// Takes the line away, if there is one.
  void erase();

private:
  void show(const std::string& line);

  Write write_;
  bool watched_;
  Clock clock_;
  double begun_;
  double shown_at_ = 0.0;
  std::int64_t done_ = 0;      ///< of this run
  std::int64_t finished_ = 0;  ///< of the runs before
  std::size_t width_ = 0;      ///< of the line as it stands
};

}  // namespace hailwright::cli
