#include "hailwright/metrology/sampled_distribution.hpp"

#include <algorithm>
#include <array>
#include <bit>
#include <cmath>
#include <functional>
#include <limits>

#include "hailwright/core/contract.hpp"
#include "metrology/widest_vectors.hpp"

namespace hailwright {

namespace {

// A distance d beyond the equal bins, which reach h to each side of their middle, is told by
// 1 + d/h: its exponent and its first six binary digits are the number of the bin.
constexpr unsigned digits_dropped = 52 - 6;
// What lies more than 2^64 h away is counted in the last one.
constexpr std::size_t outer_bins = 64 * std::size_t{64};

std::size_t outer_bin(double one_and_distance) {
  const std::uint64_t beyond_one = std::bit_cast<std::uint64_t>(std::max(1.0, one_and_distance)) -
                                   std::bit_cast<std::uint64_t>(1.0);
  return std::min<std::size_t>(beyond_one >> digits_dropped, outer_bins - 1);
}

/// Where outer bin k begins, as 1 + d/h.
double outer_edge(std::size_t k) {
  return std::bit_cast<double>((std::uint64_t{k} << digits_dropped) +
                               std::bit_cast<std::uint64_t>(1.0));
}

/// Values whose bins are found at once.
constexpr std::size_t piece = 512;

/// 0 for a value below the equal bins and for one that is not a number, 1 for one in the first of
/// them, and so on.
void find_bins(std::span<const double> values, double low, double per_unit, double bins,
               std::array<std::int32_t, piece>& found) {
  const auto loop = [&](auto) __attribute__((always_inline)) {
    for (std::size_t i = 0; i < values.size(); ++i) {
      const double place = (values[i] - low) * per_unit;
      const double above = place > -1.0 ? place : -1.0;
      found[i] = static_cast<std::int32_t>((above < bins ? above : bins) + 1.0);
    }
  };
  detail::run_with(detail::widest_vectors(), loop);
}

double mapped(const SampledDistribution::Monotone& map, double x) {
  return map ? map(x) : x;
}

}  // namespace

SampledDistribution::SampledDistribution(double low, double high, std::size_t bins)
    : low_(low), high_(high), width_((high - low) / static_cast<double>(bins)), bins_(bins),
      counts_(bins + 2 * outer_bins) {
  expects(low < high && bins >= 1 && bins <= (1U << 30U), "SampledDistribution: no such bins");
  expects(std::isfinite(1.0 / width_), "SampledDistribution: bins too narrow");
}

void SampledDistribution::add(std::span<const double> values) {
  trials_ += static_cast<std::int64_t>(values.size());
  while (!values.empty()) {
    const std::size_t n = std::min(values.size(), piece);
    add_piece(values.first(n));
    values = values.subspan(n);
  }
}

/// Counts what lies outside in the outer bins next to the equal ones, and moves it on from there.
void SampledDistribution::add_piece(std::span<const double> values) {
  // NOLINTNEXTLINE(cppcoreguidelines-pro-type-member-init): filled before it is read
  std::array<std::int32_t, piece> found;
  find_bins(values, low_, 1.0 / width_, static_cast<double>(bins_), found);
  std::int64_t* const first = &counts_[outer_bins - 1];
  const std::size_t last = bins_ + 1;
  const std::int64_t outside_before = first[0] + first[last];
  for (std::size_t i = 0; i < values.size(); ++i)
    ++first[found[i]];
  if (first[0] + first[last] == outside_before) return;
  for (std::size_t i = 0; i < values.size(); ++i) {
    const auto bin = static_cast<std::size_t>(found[i]);
    if (bin != 0 && bin != last) continue;
    --first[bin];
    ++counts_[bin_outside(values[i])];
  }
}

std::size_t SampledDistribution::bin_outside(double value) const {
  expects(!std::isnan(value), "SampledDistribution: not a number");
  const double half = 0.5 * (high_ - low_);
  if (value < low_ + half) return outer_bins - 1 - outer_bin(1.0 + (low_ - value) / half);
  return outer_bins + bins_ + outer_bin(1.0 + (value - high_) / half);
}

void SampledDistribution::merge(const SampledDistribution& other) {
  expects(low_ == other.low_ && high_ == other.high_ && bins_ == other.bins_,
          "SampledDistribution: other bins");
  std::transform(counts_.begin(), counts_.end(), other.counts_.begin(), counts_.begin(),
                 std::plus<>());
  trials_ += other.trials_;
}

void SampledDistribution::clear() {
  std::fill(counts_.begin(), counts_.end(), 0);
  trials_ = 0;
}

/// Lower edge of a bin, upper edge of the one before.
double SampledDistribution::edge(std::size_t bin) const {
  const double half = 0.5 * (high_ - low_);
  if (bin < outer_bins) return low_ - half * (outer_edge(outer_bins - bin) - 1.0);
  const std::size_t equal = bin - outer_bins;
  if (equal < bins_) return low_ + width_ * static_cast<double>(equal);
  return high_ + half * (outer_edge(equal - bins_) - 1.0);
}

double SampledDistribution::inside(std::size_t bin, double share) const {
  const double lower = edge(bin);
  return lower + share * (edge(bin + 1) - lower);
}

double SampledDistribution::quantile(double p) const {
  expects(p > 0.0 && p < 1.0 && trials_ >= 1, "SampledDistribution: no such quantile");
  const double wanted = p * static_cast<double>(trials_);
  std::int64_t before = 0;
  for (std::size_t bin = 0;; ++bin) {
    const std::int64_t up_to = before + counts_[bin];
    if (static_cast<double>(up_to) >= wanted)
      return inside(bin,
                    (wanted - static_cast<double>(before)) / static_cast<double>(counts_[bin]));
    before = up_to;
  }
}

double SampledDistribution::mean(const Monotone& map) const {
  expects(trials_ >= 1, "SampledDistribution: no trial");
  double sum = 0.0;
  for (std::size_t bin = 0; bin < counts_.size(); ++bin) {
    if (counts_[bin] > 0) sum += static_cast<double>(counts_[bin]) * mapped(map, inside(bin, 0.5));
  }
  return sum / static_cast<double>(trials_);
}

double SampledDistribution::sd(const Monotone& map) const {
  expects(trials_ >= 2, "SampledDistribution: one trial has no spread");
  const double m = mean(map);
  double sum = 0.0;
  for (std::size_t bin = 0; bin < counts_.size(); ++bin) {
    if (counts_[bin] == 0) continue;
    const double off = mapped(map, inside(bin, 0.5)) - m;
    sum += static_cast<double>(counts_[bin]) * off * off;
  }
  return std::sqrt(sum / static_cast<double>(trials_ - 1));
}

double SampledDistribution::above(double x) const {
  expects(trials_ >= 1, "SampledDistribution: no trial");
  double sum = 0.0;
  for (std::size_t bin = counts_.size(); bin > 0; --bin) {
    const double lower = edge(bin - 1);
    const double upper = edge(bin);
    const auto n = static_cast<double>(counts_[bin - 1]);
    if (x > lower)
      return (sum + n * std::max(0.0, (upper - x) / (upper - lower))) /
             static_cast<double>(trials_);
    sum += n;
  }
  return 1.0;
}

/// From each filled bin on, as far as it takes.
std::pair<double, double> SampledDistribution::shortest(double coverage,
                                                        const Monotone& map) const {
  expects(coverage > 0.0 && coverage < 1.0 && trials_ >= 1,
          "SampledDistribution: no such coverage");
  const double wanted = coverage * static_cast<double>(trials_);
  std::pair<double, double> best{0.0, std::numeric_limits<double>::infinity()};
  std::int64_t before_left = 0;
  std::int64_t before_right = 0;
  std::size_t right = 0;
  for (std::size_t left = 0; left < counts_.size(); before_left += counts_[left++]) {
    if (counts_[left] == 0) continue;
    const double target = static_cast<double>(before_left) + wanted;
    if (target > static_cast<double>(trials_)) break;
    while (static_cast<double>(before_right + counts_[right]) < target)
      before_right += counts_[right++];
    const double share =
        (target - static_cast<double>(before_right)) / static_cast<double>(counts_[right]);
    const auto [low, high] =
        std::minmax({mapped(map, edge(left)), mapped(map, inside(right, share))});
    if (high - low < best.second - best.first) best = {low, high};
  }
  return best;
}

}  // namespace hailwright
