#include "cli/progress.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <chrono>
#include <cmath>
#include <utility>

namespace hailwright::cli {

namespace {

constexpr double silent_seconds = 1.0;
constexpr double redraw_seconds = 0.1;
constexpr double million = 1e6;

/// In whole seconds, or in minutes where seconds would tell too much.
std::string time_left(double seconds) {
  constexpr double minute = 60.0;
  constexpr double longest_in_seconds = 120.0;
  if (seconds <= longest_in_seconds) return fmt::format("{:.0f} s left", std::ceil(seconds));
  return fmt::format("{:.0f} min left", std::ceil(seconds / minute));
}

}  // namespace

double steady_seconds() {
  const auto now = std::chrono::steady_clock::now().time_since_epoch();
  return std::chrono::duration<double>(now).count();
}

ProgressLine::ProgressLine(Write write, bool watched, Clock clock)
    : write_(std::move(write)), watched_(watched), clock_(std::move(clock)), begun_(clock_()) {}

std::optional<double> ProgressLine::due() const {
  if (!watched_) return std::nullopt;
  const double now = clock_();
  const bool shown_just_now = width_ > 0 && now - shown_at_ < redraw_seconds;
  if (now - begun_ < silent_seconds || shown_just_now) return std::nullopt;
  return now - begun_;
}

void ProgressLine::show(const std::string& line) {
  const std::size_t left_over = std::max(width_, line.size()) - line.size();
  write_("\r" + line + std::string(left_over, ' '));
  width_ = line.size();
  shown_at_ = clock_();
}

void ProgressLine::erase() {
  if (width_ == 0) return;
  write_("\r" + std::string(width_, ' ') + "\r");
  width_ = 0;
}

TrialProgress::TrialProgress(ProgressLine::Write write, bool watched, ProgressLine::Clock clock)
    : line_(std::move(write), watched, std::move(clock)) {}

void TrialProgress::report(std::int64_t done, std::int64_t most) {
  if (done < done_) finished_ += done_;
  done_ = done;
  if (most <= 0) return;
  const auto elapsed = line_.due();
  if (!elapsed) return;
  const auto all = static_cast<double>(finished_ + done_);
  line_.show(fmt::format("random trials: {:.0f} % of {:.1f} million, {:.1f} million a second",
                         100.0 * static_cast<double>(done_) / static_cast<double>(most),
                         static_cast<double>(most) / million, all / *elapsed / million));
}

ReadingProgress::ReadingProgress(ProgressLine::Write write, bool watched,
                                 std::optional<std::int64_t> total, ProgressLine::Clock clock)
    : line_(std::move(write), watched, std::move(clock)), total_(total) {}

void ReadingProgress::report(std::int64_t bytes) {
  const auto elapsed = line_.due();
  if (!elapsed) return;
  const auto read = static_cast<double>(bytes);
  const double bytes_per_s = read / *elapsed;
  const std::string rate = fmt::format("{:.0f} MB/s", bytes_per_s / million);
  if (!total_ || *total_ <= 0 || bytes <= 0) {
    line_.show(fmt::format("readings: {:.0f} MB, {}", read / million, rate));
    return;
  }
  // A file that grows is read to its new end.
  const auto total = static_cast<double>(std::max(*total_, bytes));
  line_.show(fmt::format("readings: {:.0f} % of {:.0f} MB, {}, {}",
                         std::floor(100.0 * read / total), total / million, rate,
                         time_left((total - read) / bytes_per_s)));
}

}  // namespace hailwright::cli
