// Trials per second of single processor cores and of two, for the model that
// tests/benchmark/compare also gives to other programs, for two designs of tests/reference, and for
// a demonstration record.
#include <benchmark/benchmark.h>

#include <fstream>
#include <sstream>
#include <stdexcept>

#include "benchmark/twelve_inputs.hpp"
#include "evaluate/loss_sampler.hpp"
#include "hailwright/input/readers.hpp"

namespace {

using namespace hailwright;

Loaded from_file(const std::string& path, std::size_t) {
  std::ostringstream text;
  text << std::ifstream(path, std::ios::binary).rdbuf();
  return {text.str(), {}, {}};
}

/// The comparison that `judge` makes of the stage after all shots of a record.
PowerModel model_of(const std::string& record) {
  SourceSet sources;
  const Checked<Test> test =
      read_test(std::string(HAILWRIGHT_SOURCE_DIR) + "/" + record, from_file, sources);
  if (!test.value) throw std::runtime_error(record + " has errors");
  Assumptions assumptions;
  PowerResult power = judge_power(*test.value, {StageKind::after, 0}, assumptions);
  if (!power.model) throw std::runtime_error(record + " has no model");
  return std::move(*power.model);
}

void run(benchmark::State& state, const PowerModel& model) {
  const BlockSampler sampler = loss_sampler(model);
  MonteCarloPlan plan;
  plan.threads = static_cast<int>(state.range(0));
  for (auto _ : state) {
    const MonteCarloRun done = run_monte_carlo(sampler, plan);
    benchmark::DoNotOptimize(done.values.quantile(0.975));
  }
  state.SetItemsProcessed(state.iterations() * plan.trials);
}

void twelve(benchmark::State& state) {
  run(state, measured::twelve_inputs());
}
void design_a(benchmark::State& state) {
  run(state, model_of("tests/reference/designs/design-a.yaml"));
}
void design_b(benchmark::State& state) {
  run(state, model_of("tests/reference/designs/design-b.yaml"));
}
void demo_record(benchmark::State& state) {
  run(state, model_of("protocols/demo/rigid-withstood.yaml"));
}

void threads(benchmark::internal::Benchmark* b) {
  b->ArgName("threads")->Arg(1)->Arg(2)->Unit(benchmark::kMillisecond)->UseRealTime();
}

BENCHMARK(twelve)->Apply(threads);
BENCHMARK(design_a)->Apply(threads);
BENCHMARK(design_b)->Apply(threads);
BENCHMARK(demo_record)->Apply(threads);

}  // namespace

BENCHMARK_MAIN();
