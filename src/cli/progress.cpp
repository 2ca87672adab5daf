#include "cli/progress.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <chrono>
#include <utility>

namespace hailwright::cli {

namespace {

constexpr double silent_seconds = 1.0;
constexpr double redraw_seconds = 0.1;

}  // namespace

double steady_seconds() {
  const auto now = std::chrono::steady_clock::now().time_since_epoch();
  return std::chrono::duration<double>(now).count();
}

TrialProgress::TrialProgress(Write write, bool watched, Clock clock)
    : write_(std::move(write)), watched_(watched), clock_(std::move(clock)), begun_(clock_()) {}

void TrialProgress::report(std::int64_t done, std::int64_t most) {
  if (done < done_) finished_ += done_;
  done_ = done;
  if (!watched_ || most <= 0) return;
  const double now = clock_();
  const double elapsed = now - begun_;
  if (elapsed < silent_seconds || (width_ > 0 && now - shown_at_ < redraw_seconds)) return;
  shown_at_ = now;
  constexpr double million = 1e6;
  const auto all = static_cast<double>(finished_ + done_);
  show(fmt::format("random trials: {:.0f} % of {:.1f} million, {:.1f} million a second",
                   100.0 * static_cast<double>(done_) / static_cast<double>(most),
                   static_cast<double>(most) / million, all / elapsed / million));
}

void TrialProgress::show(const std::string& line) {
  const std::size_t left_over = std::max(width_, line.size()) - line.size();
  write_("\r" + line + std::string(left_over, ' '));
  width_ = line.size();
}

void TrialProgress::erase() {
  if (width_ == 0) return;
  write_("\r" + std::string(width_, ' ') + "\r");
  width_ = 0;
}

}  // namespace hailwright::cli
