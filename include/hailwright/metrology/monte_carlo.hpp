#pragma once

#include <cstdint>
#include <functional>
#include <span>

#include "hailwright/metrology/random.hpp"
#include "hailwright/metrology/sampled_distribution.hpp"

namespace hailwright {

/// Fills with independent draws of the quantity sought, from this stream alone. Called by several
/// threads at once, each with a stream of its own.
using BlockSampler = std::function<void(RandomStream& random, std::span<double> values)>;

/// Trials drawn from one stream: what JCGM 101:2008, 7.9.4 b asks for at a coverage up to 99 %.
inline constexpr std::int64_t block_trials = 10'000;

struct MonteCarloPlan {
  std::uint64_t seed = 1;
  std::int64_t trials = 1'000'000;  ///< 2 blocks at least; with `adaptive` the most
  double coverage = 0.95;           ///< above 0 and below 1
  bool adaptive = false;            ///< stop when stable at `digits` (JCGM 101:2008, 7.9.4)
  int digits = 2;                   ///< of the standard uncertainty, 1 or 2
  /// Stop by median and interval ends alone: for scatter so heavy-tailed that its standard
  /// deviation never settles (MEASUREMENT M7). The standard uncertainty whose digits count is then
  /// that of a normal distribution with an interval as long [ours].
  bool ends_only = false;
  int threads = 1;
  /// Called from the calling thread with the trials done and the most.
  std::function<void(std::int64_t, std::int64_t)> progress;
};

struct MonteCarloRun {
  SampledDistribution values;
  bool stable = false;  ///< adaptive: the stop rule was met before the most trials
};

/// Draws block by block; block b uses `RandomStream(seed, b)`, so that the result has the same bits
/// for any number of threads. The bins are laid by the first block: 8 standard deviations each way
/// of its mean, 2^14 of them; no farther, though, than 12 times half its middle 68 % and 3 times as
/// far as its interval reaches, since the standard deviation of a heavy tail says nothing [ours].
/// What a sampler throws reaches the caller.
MonteCarloRun run_monte_carlo(const BlockSampler& sampler, const MonteCarloPlan& plan);

/// Trials in each of the sequences that the adaptive stop compares (JCGM 101:2008, 7.9.4 b):
/// 100/(1 - coverage) or `block_trials`, whichever is more, in whole blocks. 0 < coverage < 1.
std::int64_t sequence_trials(double coverage);

/// Half of the last digit shown when a standard uncertainty is given to so many digits
/// (JCGM 101:2008, 7.9.2): 0.5 * 10^l with u = c * 10^l, c of `digits` digits. Requires u > 0 and
/// digits 1 or 2. A rounding up to the next power of ten counts: 0.00996 with one digit is 1e-2.
double numerical_tolerance(double standard_u, int digits);

}  // namespace hailwright
