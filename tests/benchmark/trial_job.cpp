// The job that tests/benchmark/compare gives to each program: trials of one model, then mean,
// standard deviation and 95 % interval of the loss, in one line with the seconds that took.
#include <chrono>
#include <cmath>
#include <cstdio>
#include <cstdlib>

#include "benchmark/twelve_inputs.hpp"
#include "evaluate/loss_sampler.hpp"

using namespace hailwright;

int main(int count, char** words) {
  if (count != 3) {
    std::fputs("usage: trial_job TRIALS THREADS\n", stderr);
    return 2;
  }
  const auto start = std::chrono::steady_clock::now();
  MonteCarloPlan plan;
  plan.trials = std::atoll(words[1]);
  plan.threads = std::atoi(words[2]);
  const MonteCarloRun run = run_monte_carlo(loss_sampler(measured::twelve_inputs()), plan);
  const auto loss = [](double lambda) { return -std::expm1(lambda); };
  const double mean = run.values.mean(loss);
  const double sd = run.values.sd(loss);
  const double low = loss(run.values.quantile(0.975));
  const double high = loss(run.values.quantile(0.025));
  const std::chrono::duration<double> seconds = std::chrono::steady_clock::now() - start;
  std::printf("%.6f %.6f %.6f %.6f %.6f\n", seconds.count(), mean, sd, low, high);
}
