#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <limits>
#include <utility>

#include "hailwright/core/contract.hpp"
#include "hailwright/core/quantity_text.hpp"
#include "hailwright/logs/log_pairing.hpp"
#include "logs/clock_offset_sums.hpp"
#include "logs/log_follower.hpp"

namespace hailwright {

namespace {

using detail::BatchedSums;
using detail::LagSums;
using detail::LogFollower;
using detail::RecentChanges;

constexpr double least_correlation = 0.3;  ///< [ours]
constexpr double least_lead = 0.1;         ///< over another top [ours]
constexpr double fewest_pairs = 256.0;     ///< of changes that both logs know [ours]
constexpr std::size_t most_lags = 10'000;  ///< on either side; [ours] bounds time and memory

/// Both logs at the same times, step by step.
class CommonSteps {
public:
  CommonSteps(const NextBlock& first, const NextBlock& second, std::int64_t step_us,
              std::int64_t longest_gap_us, std::size_t lags)
      : first_(first, 0, longest_gap_us), second_(second, 0, longest_gap_us), step_us_(step_us),
        lags_(lags), first_changes_(lags), second_changes_(lags) {}

  BatchedSums sums() {
    BatchedSums sums(lags_);
    if (!go_to_both()) return sums;
    do {
      take_step();
      sums.add(first_changes_, second_changes_);
    } while (!out_of_reach() || go_to_both());
    return sums;
  }

private:
  /// Pairs reach `lags` steps back: before that nothing can come of a log alone.
  bool go_to_both() {
    const std::optional<std::int64_t> first_us = first_.next_us();
    const std::optional<std::int64_t> second_us = second_.next_us();
    if (!first_us || !second_us) return false;
    const std::int64_t back_us = (static_cast<std::int64_t>(lags_) + 1) * step_us_;
    const std::int64_t wanted_us = std::max(*first_us, *second_us) - back_us;
    first_unknown_ = second_unknown_ = 0;
    if (begun_ && wanted_us < now_us_ + step_us_) return true;
    now_us_ = begun_ ? now_us_ + (wanted_us - now_us_) / step_us_ * step_us_ : wanted_us;
    begun_ = true;
    first_changes_.forget();
    second_changes_.forget();
    first_w_ = first_.at(now_us_).power;
    second_w_ = second_.at(now_us_).power;
    return true;
  }

  void take_step() {
    now_us_ += step_us_;
    take(first_, first_w_, first_changes_, first_unknown_);
    take(second_, second_w_, second_changes_, second_unknown_);
  }

  void take(LogFollower& log, double& power_w, RecentChanges& changes, std::size_t& unknown) const {
    const double now_w = log.at(now_us_).power;
    changes.add(now_w - power_w);
    power_w = now_w;
    unknown = changes.known() ? 0 : unknown + 1;
  }

  /// No pair can be made before a log is known again.
  [[nodiscard]] bool out_of_reach() const {
    return std::max(first_unknown_, second_unknown_) > 2 * (lags_ + 1);
  }

  LogFollower first_, second_;
  std::int64_t step_us_;
  std::size_t lags_;
  RecentChanges first_changes_, second_changes_;
  bool begun_ = false;
  std::int64_t now_us_ = 0;
  double first_w_ = 0.0, second_w_ = 0.0;
  std::size_t first_unknown_ = 0, second_unknown_ = 0;
};

std::ptrdiff_t highest(const LagSums& sums) {
  std::ptrdiff_t top = -sums.lags();
  for (std::ptrdiff_t lag = top; lag <= sums.lags(); ++lag)
    if (sums.correlation(lag) > sums.correlation(top)) top = lag;
  return top;
}

double lowest_correlation(const LagSums& sums) {
  double least = 1.0;
  for (std::ptrdiff_t lag = -sums.lags(); lag <= sums.lags(); ++lag)
    least = std::min(least, sums.correlation(lag));
  return least;
}

/// Another top.
struct Rival {
  std::ptrdiff_t lag = 0;
  double correlation = -1.0;
};

/// The highest other top on the side of `direction`. What lies next to the top belongs to it until
/// the correlation has fallen to half; where it never does, the search's edge is taken for another,
/// for the top does not stand out.
Rival rival_towards(const LagSums& sums, std::ptrdiff_t top, std::ptrdiff_t direction) {
  const std::ptrdiff_t edge = direction * sums.lags();
  const double half = 0.5 * sums.correlation(top);
  if (top == edge) return {};
  std::ptrdiff_t lag = top + direction;
  while (lag != edge && sums.correlation(lag) > half)
    lag += direction;
  Rival best{edge, sums.correlation(edge)};
  for (; lag != edge; lag += direction) {
    const double here = sums.correlation(lag);
    const bool is_top =
        here >= sums.correlation(lag - direction) && here > sums.correlation(lag + direction);
    if (is_top && here > best.correlation) best = {lag, here};
  }
  return best;
}

Rival best_rival(const LagSums& sums, std::ptrdiff_t top) {
  const Rival below = rival_towards(sums, top, -1);
  const Rival above = rival_towards(sums, top, 1);
  return below.correlation > above.correlation ? below : above;
}

/// The top in steps, between lags: of the parabola through the highest lag and its neighbours.
double fine_top(const LagSums& sums, std::ptrdiff_t near) {
  std::ptrdiff_t top = near;
  const std::ptrdiff_t last = sums.lags() - 1;
  while (top < last && sums.correlation(top + 1) > sums.correlation(top))
    ++top;
  while (top > -last && sums.correlation(top - 1) > sums.correlation(top))
    --top;
  const double before = sums.correlation(top - 1);
  const double at = sums.correlation(top);
  const double after = sums.correlation(top + 1);
  const double bend = before - 2.0 * at + after;
  const double shift = bend < 0.0 ? 0.5 * (before - after) / bend : 0.0;
  return static_cast<double>(top) + std::clamp(shift, -0.5, 0.5);
}

/// Standard uncertainty of the top in steps from the log's own scatter: the delete-one jackknife
/// over stretches of the log (Quenouille, Tukey; from memory), (G - 1)/G times the sum of squares
/// of what leaving one out changes. It asks for no model of clouds or noise, whose changes from
/// step to step are not independent. On invented days whose error is mostly the meters' noise it
/// covers 91 % with k = 2; on days with quiet meters the parabola errs by more (0.03 to 0.11 steps
/// rms), and only the share of the step covers that: together 100 % (tests/unit/logs).
double scatter_of_top(const BatchedSums& sums, const LagSums& total, std::ptrdiff_t top) {
  std::vector<double> tops;
  for (const LagSums& batch : sums.batches()) {
    LagSums others = total;
    others -= batch;
    tops.push_back(fine_top(others, top));
  }
  const auto count = static_cast<double>(tops.size());
  double mean = 0.0;
  double squares = 0.0;
  for (const double t : tops)
    mean += t / count;
  for (const double t : tops)
    squares += (t - mean) * (t - mean);
  return std::sqrt((count - 1.0) / count * squares);
}

std::string two_digits(double correlation) {
  return fixed(correlation, 2);
}

/// Why a top says nothing; empty when it does.
std::string doubt(const LagSums& sums, std::ptrdiff_t top, const Rival& rival, double step_s) {
  const auto at = [&](std::ptrdiff_t lag) {
    return fmt::format("{:g} s", static_cast<double>(lag) * step_s);
  };
  const double correlation = sums.correlation(top);
  if (sums.pairs(0) < fewest_pairs && sums.pairs(top) < fewest_pairs)
    return fmt::format("too little in common: {:g} steps of {:g} s are in both logs, {:g} are "
                       "needed",
                       std::max(sums.pairs(0), sums.pairs(top)), step_s, fewest_pairs);
  if (correlation < least_correlation)
    return fmt::format("the changes of power agree too little (correlation {} at most): no clouds "
                       "that both logs saw, or clocks further apart than {}",
                       two_digits(correlation), at(sums.lags()));
  if (correlation - lowest_correlation(sums) < least_lead)
    return fmt::format("no clouds: the powers change alike at every offset (correlation {} to {})",
                       two_digits(lowest_correlation(sums)), two_digits(correlation));
  if (std::abs(top) == sums.lags())
    return fmt::format("the best offset, {}, is at the edge of the search: search further",
                       at(top));
  if (correlation - rival.correlation < least_lead)
    return fmt::format("two offsets fit about alike: {} (correlation {}) and {} ({})", at(top),
                       two_digits(correlation), at(rival.lag), two_digits(rival.correlation));
  return {};
}

}  // namespace

ClockOffset find_clock_offset(const NextBlock& first, const NextBlock& second, Time search,
                              Time step, Time longest_gap) {
  expects(search.si() > 0.0 && step.si() >= 1e-6, "a search and a step above 0");
  const double step_s = step.si();
  const auto step_us = std::llround(step_s * 1e6);
  ClockOffset found;
  const double wanted_lags = std::max(1.0, std::floor(search.si() / step_s + 1e-9));
  if (wanted_lags > static_cast<double>(most_lags)) {
    found.why_not = fmt::format("a search of {:g} s in steps of {:g} s is too long: {:g} s at most",
                                search.si(), step_s, static_cast<double>(most_lags) * step_s);
    return found;
  }
  const auto lags = static_cast<std::size_t>(wanted_lags);
  found.searched = Time::from_si(wanted_lags * step_s);
  CommonSteps steps(first, second, step_us, std::llround(longest_gap.si() * 1e6), lags);
  const BatchedSums sums = steps.sums();
  const LagSums total = sums.total();
  const std::ptrdiff_t top = highest(total);
  const Rival rival = best_rival(total, top);
  found.correlation = total.correlation(top);
  found.next_best = rival.correlation;
  found.why_not = doubt(total, top, rival, step_s);
  if (!found.why_not.empty()) return found;
  found.offset = Time::from_si(fine_top(total, top) * step_s);
  // A stamp may stand for the beginning or the end of its step, and a top between two steps rests
  // on straight lines and a parabola: half a step on either side, rectangular (JCGM
  // 100:2008, 4.3.7).
  const double scatter_s = scatter_of_top(sums, total, top) * step_s;
  found.standard_u = Time::from_si(std::hypot(scatter_s, step_s / std::sqrt(12.0)));
  return found;
}

}  // namespace hailwright
