#include "hailwright/metrology/monte_carlo.hpp"

#include <algorithm>
#include <atomic>
#include <cmath>
#include <limits>
#include <stdexcept>
#include <thread>
#include <vector>

#include "hailwright/core/contract.hpp"
#include "hailwright/metrology/distributions.hpp"
#include "hailwright/metrology/statistics.hpp"
#include "support/catch.hpp"

using namespace hailwright;

namespace {

constexpr double infinite = std::numeric_limits<double>::infinity();

BlockSampler t_sampler(double degrees_of_freedom, double mean = 0.0, double scale = 1.0) {
  return [=](RandomStream& random, std::span<double> values) {
    fill_standard(random, Shape::normal, degrees_of_freedom, values);
    for (double& v : values)
      v = mean + scale * v;
  };
}

MonteCarloPlan plan_of(std::int64_t trials, bool adaptive = false) {
  MonteCarloPlan plan;
  plan.trials = trials;
  plan.adaptive = adaptive;
  return plan;
}

void check_same(const SampledDistribution& a, const SampledDistribution& b) {
  CHECK(a.trials() == b.trials());
  CHECK(a.mean() == b.mean());
  CHECK(a.sd() == b.sd());
  for (const double p : {1e-6, 0.001, 0.025, 0.16, 0.5, 0.84, 0.975, 0.999})
    CHECK(a.quantile(p) == b.quantile(p));
  CHECK(a.above(0.7) == b.above(0.7));
  CHECK(a.shortest(0.95) == b.shortest(0.95));
}

/// Values of one block, in order of size.
std::vector<double> sorted_block(const BlockSampler& sampler, std::uint64_t seed,
                                 std::uint64_t block) {
  std::vector<double> values(block_trials);
  RandomStream random(seed, block);
  sampler(random, values);
  std::sort(values.begin(), values.end());
  return values;
}

}  // namespace

TEST_CASE("a normal distribution comes back, within four standard errors") {
  const std::int64_t n = 400'000;
  const MonteCarloRun run = run_monte_carlo(t_sampler(infinite, 5.0, 2.0), plan_of(n));
  CHECK(run.values.trials() == n);
  CHECK_FALSE(run.stable);
  const double root = std::sqrt(static_cast<double>(n));
  CHECK_THAT(run.values.mean(), WithinAbs(5.0, 4.0 * 2.0 / root));
  CHECK_THAT(run.values.sd(), WithinAbs(2.0, 4.0 * 2.0 / std::sqrt(2.0) / root));
  for (const double p : {0.025, 0.5, 0.975}) {
    const double z = normal_quantile(p);
    const double density = std::exp(-0.5 * z * z) / std::sqrt(2.0 * 3.14159265) / 2.0;
    CHECK_THAT(run.values.quantile(p),
               WithinAbs(5.0 + 2.0 * z, 4.0 * std::sqrt(p * (1.0 - p)) / density / root));
  }
}

// M7 and the promise of the same bits: counts do not care who adds them up. The sampler dawdles in
// some blocks, so that threads overtake each other.
TEST_CASE("one, two and seven threads give the same bits") {
  const BlockSampler sampler = [](RandomStream& random, std::span<double> values) {
    if (RandomStream(random).bits() % 4 == 0)
      std::this_thread::sleep_for(std::chrono::microseconds(300));
    t_sampler(3.0, 0.0, 2.0)(random, values);
  };
  for (const bool adaptive : {false, true}) {
    const std::int64_t most = adaptive ? 1'000'000 : 155'000;
    MonteCarloPlan plan = plan_of(most, adaptive);
    plan.ends_only = adaptive;
    const MonteCarloRun one = run_monte_carlo(sampler, plan);
    for (const int threads : {2, 7}) {
      CAPTURE(adaptive, threads);
      plan.threads = threads;
      const MonteCarloRun many = run_monte_carlo(sampler, plan);
      CHECK(many.stable == one.stable);
      check_same(many.values, one.values);
    }
    // The stop lies among the sequences, neither at the first possible one nor at the last.
    CAPTURE(one.values.trials());
    CHECK(one.stable == adaptive);
    CHECK((one.values.trials() < most) == adaptive);
    CHECK(one.values.trials() > 10 * block_trials);
  }
}

TEST_CASE("block b is drawn from the stream of its number, the last one maybe shorter") {
  MonteCarloPlan plan = plan_of(3 * block_trials + 1234);
  plan.seed = 77;
  // What a block gives depends on its stream alone: here its first bits, told by the values.
  const BlockSampler sampler = [](RandomStream& random, std::span<double> values) {
    std::fill(values.begin(), values.end(), random.uniform());
  };
  const MonteCarloRun run = run_monte_carlo(sampler, plan);
  CHECK(run.values.trials() == plan.trials);
  double sum = 0.0;
  for (std::uint64_t block = 0; block < 4; ++block)
    sum += RandomStream(77, block).uniform() * (block < 3 ? 10'000.0 : 1234.0);
  // The first block being constant, its bins tell the others to a part in 64 alone.
  CHECK_THAT(run.values.mean(), WithinRel(sum / static_cast<double>(plan.trials), 0.02));
}

// JCGM 101:2008, 7.9.4, followed step by step on sorted blocks; the engine takes its figures from
// the bins instead.
TEST_CASE("the adaptive stop is that of the guide") {
  for (const std::uint64_t seed : {1ULL, 2ULL}) {
    for (const int digits : {1, 2}) {
      CAPTURE(seed, digits);
      MonteCarloPlan plan = plan_of(10'000'000, true);
      plan.seed = seed;
      plan.digits = digits;
      const BlockSampler sampler = t_sampler(infinite, 0.0, 3.0);
      const MonteCarloRun run = run_monte_carlo(sampler, plan);
      CHECK(run.stable);
      std::vector<double> all;
      std::vector<double> series[4];
      for (std::uint64_t h = 1;; ++h) {
        const std::vector<double> block = sorted_block(sampler, seed, h - 1);
        all.insert(all.end(), block.begin(), block.end());
        series[0].push_back(mean(block));
        series[1].push_back(*sample_sd(block));
        series[2].push_back(block[249]);
        series[3].push_back(block[9749]);
        if (h < 2) continue;
        const double delta = numerical_tolerance(*sample_sd(all), digits);
        const bool stable = std::all_of(std::begin(series), std::end(series), [&](const auto& z) {
          return 2.0 * *sample_sd(z) / std::sqrt(static_cast<double>(h)) <= delta;
        });
        if (!stable) continue;
        CHECK(run.values.trials() == static_cast<std::int64_t>(all.size()));
        break;
      }
    }
  }
}

// M7: with one or two degrees of freedom there is no standard deviation that could settle.
TEST_CASE("heavy tails stop by median and ends, or at the cap") {
  MonteCarloPlan plan = plan_of(600'000, true);
  const MonteCarloRun capped = run_monte_carlo(t_sampler(1.0), plan);
  CHECK_FALSE(capped.stable);
  CHECK(capped.values.trials() == 600'000);
  plan.ends_only = true;
  plan.digits = 1;
  const MonteCarloRun stopped = run_monte_carlo(t_sampler(1.0), plan);
  CHECK(stopped.stable);
  CHECK(stopped.values.trials() < 600'000);
  // u of a normal distribution of this interval is about 6.5, one digit: half of 1.
  CHECK_THAT(stopped.values.quantile(0.975), WithinAbs(t_quantile(0.975, 1.0), 1.0));
}

TEST_CASE("the cap ends a run that is not stable") {
  MonteCarloPlan plan = plan_of(50'000, true);
  // Two digits of 9.0 take some hundred blocks.
  const BlockSampler sampler = t_sampler(infinite, 0.0, 9.0);
  const MonteCarloRun run = run_monte_carlo(sampler, plan);
  CHECK_FALSE(run.stable);
  CHECK(run.values.trials() == 50'000);
  // A last sequence that is shorter than the others is counted and decides nothing.
  plan.trials = 45'000;
  CHECK(run_monte_carlo(sampler, plan).values.trials() == 45'000);
}

// Standard deviations of 10^4 such draws are mere chance: 10 to 10^4 for one degree of freedom.
TEST_CASE("bins lie well for heavy tails too") {
  for (const double nu : {1.0, 2.0, 3.0}) {
    for (std::uint64_t seed = 1; seed <= 3; ++seed) {
      MonteCarloPlan plan = plan_of(100'000);
      plan.seed = seed;
      plan.coverage = 0.98;
      const MonteCarloRun run = run_monte_carlo(t_sampler(nu), plan);
      for (const double p : {0.01, 0.16, 0.5, 0.975, 0.99, 0.999}) {
        CAPTURE(nu, seed, p);
        // The share below the quantile found, by the distribution function.
        const double u = std::sqrt(p * (1.0 - p) / 100'000.0);
        CHECK_THAT(t_cdf(run.values.quantile(p), nu), WithinAbs(p, 4.5 * u));
      }
    }
  }
}

TEST_CASE("a quantity that does not vary") {
  for (const double value : {0.0, -3.25, 1e-9, 4e12}) {
    const BlockSampler sampler = [=](RandomStream&, std::span<double> values) {
      std::fill(values.begin(), values.end(), value);
    };
    MonteCarloPlan plan = plan_of(100'000, true);
    const MonteCarloRun run = run_monte_carlo(sampler, plan);
    CAPTURE(value);
    CHECK(run.stable);
    CHECK(run.values.trials() == 2 * block_trials);
    CHECK_THAT(run.values.mean(), WithinAbs(value, 1e-14 * std::abs(value) + 1e-200));
    CHECK_THAT(run.values.quantile(0.975), WithinAbs(value, 1e-14 * std::abs(value) + 1e-200));
    CHECK(run.values.sd() == 0.0);
  }
}

TEST_CASE("values here and there among many that are the same") {
  const BlockSampler sampler = [](RandomStream& random, std::span<double> values) {
    for (double& v : values)
      v = random.uniform() < 0.001 ? 1.0 : 0.0;
  };
  const MonteCarloRun run = run_monte_carlo(sampler, plan_of(200'000));
  CHECK_THAT(run.values.mean(), WithinAbs(0.001, 4.0 * std::sqrt(0.001 / 200'000)));
  CHECK_THAT(run.values.quantile(0.5), WithinAbs(0.0, 1e-3));
}

TEST_CASE("what a sampler throws reaches the caller") {
  for (const int threads : {1, 3}) {
    for (const bool adaptive : {false, true}) {
      std::atomic<int> calls = 0;
      const BlockSampler sampler = [&](RandomStream& random, std::span<double> values) {
        if (++calls == 9) throw std::runtime_error("no power");
        t_sampler(infinite, 0.0, 9.0)(random, values);
      };
      MonteCarloPlan plan = plan_of(2'000'000, adaptive);
      plan.threads = threads;
      CAPTURE(threads, adaptive);
      CHECK_THROWS_WITH(run_monte_carlo(sampler, plan), "no power");
      // The others end their block and no more.
      CHECK(calls < 9 + threads);
    }
  }
}

TEST_CASE("progress is told from the calling thread, up to the end") {
  for (const int threads : {1, 2}) {
    MonteCarloPlan plan = plan_of(100'000);
    plan.threads = threads;
    std::vector<std::int64_t> told;
    bool own_thread = true;
    plan.progress = [&, caller = std::this_thread::get_id()](std::int64_t done, std::int64_t most) {
      own_thread = own_thread && std::this_thread::get_id() == caller && most == 100'000;
      told.push_back(done);
    };
    run_monte_carlo(t_sampler(infinite), plan);
    CHECK(own_thread);
    REQUIRE_FALSE(told.empty());
    CHECK(std::is_sorted(told.begin(), told.end()));
    CHECK(told.back() == 100'000);
  }
}

TEST_CASE("numerical tolerance rounds as the figure shown does") {
  CHECK(numerical_tolerance(0.00996, 1) == 0.005);
  CHECK(numerical_tolerance(0.00996, 2) == 0.0005);
  CHECK(numerical_tolerance(0.00994, 2) == 0.00005);
  CHECK(numerical_tolerance(99.5, 1) == 50.0);
  CHECK(numerical_tolerance(1e-300, 2) == 5e-302);
  CHECK_THROWS_AS(numerical_tolerance(0.0, 1), BugError);
  CHECK_THROWS_AS(numerical_tolerance(1.0, 3), BugError);
}

TEST_CASE("sequences of more blocks for coverages above 99 per cent") {
  CHECK(sequence_trials(0.95) == 10'000);
  CHECK(sequence_trials(0.99) == 10'000);
  CHECK(sequence_trials(0.998) == 50'000);
  CHECK_THROWS_AS(sequence_trials(1.0), BugError);
  MonteCarloPlan plan = plan_of(300'000, true);
  plan.coverage = 0.998;
  plan.digits = 1;
  const MonteCarloRun run = run_monte_carlo(t_sampler(infinite), plan);
  CHECK(run.stable);
  CHECK(run.values.trials() % 50'000 == 0);
}

TEST_CASE("plans that cannot be carried out are our bug") {
  CHECK_THROWS_AS(run_monte_carlo(t_sampler(infinite), plan_of(10'000)), BugError);
  MonteCarloPlan plan = plan_of(20'000);
  plan.threads = 0;
  CHECK_THROWS_AS(run_monte_carlo(t_sampler(infinite), plan), BugError);
  plan = plan_of(20'000);
  plan.digits = 3;
  CHECK_THROWS_AS(run_monte_carlo(t_sampler(infinite), plan), BugError);
  plan = plan_of(20'000);
  plan.coverage = 1.0;
  CHECK_THROWS_AS(run_monte_carlo(t_sampler(infinite), plan), BugError);
}
