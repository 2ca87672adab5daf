#include "hailwright/metrology/monte_carlo.hpp"

#include <algorithm>
#include <array>
#include <atomic>
#include <charconv>
#include <cmath>
#include <exception>
#include <string>
#include <system_error>
#include <thread>
#include <vector>

#include <fmt/format.h>

#include "hailwright/core/contract.hpp"
#include "hailwright/metrology/distributions.hpp"
#include "hailwright/metrology/statistics.hpp"

namespace hailwright {

namespace {

constexpr std::size_t equal_bins = std::size_t{1} << 14U;

/// Calls `task(worker, i)` for every i from `first` up to `last`, on so many threads, worker 0
/// being the caller's. What a task throws ends the work and is thrown here.
template <class Task>
void share_out(std::int64_t first, std::int64_t last, std::size_t workers, Task task) {
  std::atomic<std::int64_t> next{first};
  std::vector<std::exception_ptr> failures(workers);
  const auto work = [&](std::size_t worker) {
    try {
      for (std::int64_t i = next++; i < last; i = next++)
        task(worker, i);
    } catch (...) {
      next = last;
      failures[worker] = std::current_exception();
    }
  };
  {
    std::vector<std::jthread> others;
    try {
      for (std::size_t worker = 1; worker < workers; ++worker)
        others.emplace_back(work, worker);
    } catch (const std::system_error&) {
      // The system has no thread left: those that there are do the same work.
    }
    work(0);
  }
  for (const std::exception_ptr& failure : failures) {
    if (failure) std::rethrow_exception(failure);
  }
}

/// The trials of a plan in sequences, each of one block or more.
class Trials {
public:
  Trials(const BlockSampler& sampler, const MonteCarloPlan& plan, std::int64_t in_sequence)
      : sampler_(sampler), seed_(plan.seed), trials_(plan.trials), in_sequence_(in_sequence) {}

  [[nodiscard]] std::int64_t sequences() const {
    return (trials_ + in_sequence_ - 1) / in_sequence_;
  }
  /// The last one may be shorter.
  [[nodiscard]] std::int64_t size(std::int64_t sequence) const {
    return std::min(in_sequence_, trials_ - sequence * in_sequence_);
  }

  void draw(std::int64_t sequence, std::vector<double>& values) const {
    values.resize(static_cast<std::size_t>(size(sequence)));
    std::span<double> left = values;
    std::int64_t block = sequence * (in_sequence_ / block_trials);
    for (; !left.empty(); ++block) {
      const std::size_t n = std::min(left.size(), static_cast<std::size_t>(block_trials));
      RandomStream random(seed_, static_cast<std::uint64_t>(block));
      sampler_(random, left.first(n));
      left = left.subspan(n);
    }
  }

private:
  const BlockSampler& sampler_;
  std::uint64_t seed_;
  std::int64_t trials_;
  std::int64_t in_sequence_;
};

/// Value of the given rank among those in order, as a share of their number.
double ranked(std::vector<double>& values, double share) {
  const auto at =
      values.begin() + static_cast<std::ptrdiff_t>(share * static_cast<double>(values.size() - 1));
  std::nth_element(values.begin(), at, values.end());
  return *at;
}

SampledDistribution bins_for(std::vector<double> values, double coverage) {
  const double sd = sample_sd(values).value_or(0.0);
  const double centre = ranked(values, 0.5);
  // The middle 68 % of a normal distribution lie within its standard deviation.
  const double core = 0.5 * (ranked(values, 0.84) - ranked(values, 0.16));
  const double tail = 0.5 * (1.0 - coverage);
  const double reach = std::max(centre - ranked(values, tail), ranked(values, 1.0 - tail) - centre);
  double half = std::min(8.0 * sd, std::max(12.0 * core, 3.0 * reach));
  if (half == 0.0) half = 8.0 * sd;
  // Where all are the same, as narrow as can be told apart.
  half = std::max(half, 0x1p-36 * std::max(std::abs(centre), 0x1p-900));
  return {centre - half, centre + half, equal_bins};
}

/// The adaptive stop of JCGM 101:2008, 7.9.4: twice the standard deviation of the mean of each
/// figure over the sequences is no larger than the numerical tolerance of u.
class StopRule {
public:
  explicit StopRule(const MonteCarloPlan& plan)
      : tail_(0.5 * (1.0 - plan.coverage)), digits_(plan.digits), ends_only_(plan.ends_only) {}

  /// Interval ends, and mean and standard deviation or the median instead.
  using Figures = std::array<double, 4>;

  [[nodiscard]] Figures figures(std::span<const double> values,
                                const SampledDistribution& counts) const {
    const double low = counts.quantile(tail_);
    const double high = counts.quantile(1.0 - tail_);
    if (ends_only_) return {low, high, counts.quantile(0.5), 0.0};
    return {low, high, mean(values), sample_sd(values).value_or(0.0)};
  }

  void add(const Figures& figures) {
    for (std::size_t i = 0; i < figures.size(); ++i)
      series_[i].push_back(figures[i]);
  }

  [[nodiscard]] bool met(const SampledDistribution& all) const {
    if (series_[0].size() < 2) return false;
    const double u = standard_u(all);
    const double tolerance = u > 0.0 ? numerical_tolerance(u, digits_) : 0.0;
    const double root = std::sqrt(static_cast<double>(series_[0].size()));
    return std::all_of(series_.begin(), series_.end(), [&](const std::vector<double>& z) {
      return 2.0 * *sample_sd(z) / root <= tolerance;
    });
  }

private:
  [[nodiscard]] double standard_u(const SampledDistribution& all) const {
    if (!ends_only_) return all.sd();
    const double length = all.quantile(1.0 - tail_) - all.quantile(tail_);
    return 0.5 * length / normal_quantile(1.0 - tail_);
  }

  double tail_;
  int digits_;
  bool ends_only_;
  std::array<std::vector<double>, std::tuple_size_v<Figures>> series_;
};

/// What one sequence gives, before it is known whether the run goes as far.
struct Sequence {
  std::vector<double> values;
  SampledDistribution counts;
  StopRule::Figures figures{};
};

/// A run under way: where its trials come from and where they go.
class Run {
public:
  Run(const BlockSampler& sampler, const MonteCarloPlan& plan)
      : plan_(plan),
        trials_(sampler, plan, plan.adaptive ? sequence_trials(plan.coverage) : block_trials),
        workers_(
            static_cast<std::size_t>(std::min<std::int64_t>(plan.threads, trials_.sequences()))) {}

  MonteCarloRun make() const {
    const Sequence first = first_sequence();
    MonteCarloRun run{first.counts};
    if (plan_.adaptive)
      run.stable = draw_until_stable(first, run.values);
    else
      draw_all(run.values);
    return run;
  }

private:
  Sequence first_sequence() const {
    std::vector<double> values;
    trials_.draw(0, values);
    const auto block = std::min(values.size(), static_cast<std::size_t>(block_trials));
    SampledDistribution counts = bins_for(
        {values.begin(), values.begin() + static_cast<std::ptrdiff_t>(block)}, plan_.coverage);
    counts.add(values);
    return {std::move(values), std::move(counts)};
  }

  /// Counts may be added in any order: each worker has its own until the end.
  void draw_all(SampledDistribution& all) const {
    SampledDistribution none = all;
    none.clear();
    std::vector<Sequence> parts(workers_, Sequence{{}, none});
    std::atomic<std::int64_t> done{all.trials()};
    share_out(1, trials_.sequences(), workers_, [&](std::size_t worker, std::int64_t sequence) {
      Sequence& part = parts[worker];
      trials_.draw(sequence, part.values);
      part.counts.add(part.values);
      done += trials_.size(sequence);
      if (worker == 0) tell(done);
    });
    for (const Sequence& part : parts)
      all.merge(part.counts);
    tell(all.trials());
  }

  /// Sequences are drawn some ahead but taken in their order, so that the stop does not depend on
  /// the threads.
  bool draw_until_stable(const Sequence& first, SampledDistribution& all) const {
    StopRule rule(plan_);
    rule.add(rule.figures(first.values, first.counts));
    std::vector<Sequence> ahead(workers_ == 1 ? 1 : 4 * workers_, first);
    for (std::int64_t taken = 1; taken < trials_.sequences();) {
      const std::int64_t last =
          std::min(taken + static_cast<std::int64_t>(ahead.size()), trials_.sequences());
      share_out(taken, last, workers_, [&](std::size_t, std::int64_t sequence) {
        Sequence& s = ahead[static_cast<std::size_t>(sequence - taken)];
        trials_.draw(sequence, s.values);
        s.counts.clear();
        s.counts.add(s.values);
        s.figures = rule.figures(s.values, s.counts);
      });
      for (std::size_t i = 0; taken < last; ++taken, ++i) {
        all.merge(ahead[i].counts);
        // A shorter last one cannot be compared with the others.
        if (trials_.size(taken) < trials_.size(0)) return false;
        rule.add(ahead[i].figures);
        if (rule.met(all)) return true;
      }
      tell(all.trials());
    }
    return false;
  }

  void tell(std::int64_t done) const {
    if (plan_.progress) plan_.progress(done, plan_.trials);
  }

  const MonteCarloPlan& plan_;
  Trials trials_;
  std::size_t workers_;
};

}  // namespace

MonteCarloRun run_monte_carlo(const BlockSampler& sampler, const MonteCarloPlan& plan) {
  expects(plan.trials >= 2 * block_trials, "run_monte_carlo: two blocks at least");
  expects(plan.coverage > 0.0 && plan.coverage < 1.0, "run_monte_carlo: no such coverage");
  expects(plan.digits == 1 || plan.digits == 2, "run_monte_carlo: one digit or two");
  expects(plan.threads >= 1, "run_monte_carlo: one thread at least");
  return Run(sampler, plan).make();
}

std::int64_t sequence_trials(double coverage) {
  expects(coverage > 0.0 && coverage < 1.0, "sequence_trials: no such coverage");
  // Rounding in 1 - coverage must not ask for a trial more: 100/(1 - 0.99) is 10 000.
  const double asked = 100.0 / (1.0 - coverage) * (1.0 - 1e-9);
  const auto blocks = std::ceil(asked / static_cast<double>(block_trials));
  return block_trials * static_cast<std::int64_t>(blocks);
}

double numerical_tolerance(double standard_u, int digits) {
  expects(standard_u > 0.0 && std::isfinite(standard_u), "numerical_tolerance: u above 0");
  expects(digits == 1 || digits == 2, "numerical_tolerance: one digit or two");
  // As printed with so many digits, d.de-xx: so rounding carries as it does there.
  const std::string printed = fmt::format("{:.{}e}", standard_u, digits - 1);
  const int exponent = std::stoi(printed.substr(printed.find('e') + 1));
  const std::string half = fmt::format("5e{}", exponent - digits);
  double tolerance = 0.0;
  std::from_chars(half.data(), half.data() + half.size(), tolerance);
  return tolerance;
}

}  // namespace hailwright
