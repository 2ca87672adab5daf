// Three ways to the sensitivities of one reading, with the largest relative error of each against
// central differences in long double, extrapolated to a step of zero (Richardson).
#include <benchmark/benchmark.h>

#include <algorithm>
#include <cmath>

#include "benchmark/sensitivities.hpp"

namespace {

using namespace hailwright;
using measured::Sensitivities;

const NormalisedReading reading{
    Power::from_si(80), Irradiance::from_si(850), TemperaturePoint::from_celsius(46.0),
    TemperatureCoefficient::from_si(-0.0038), TemperatureDifference::from_si(3.0)};

long double difference(std::size_t slot, long double step) {
  std::array<long double, error_slots> up{};
  std::array<long double, error_slots> down{};
  up[slot] = step;
  down[slot] = -step;
  return (log_normalised_power(reading, up) - log_normalised_power(reading, down)) / (2 * step);
}

long double derivative(std::size_t slot) {
  constexpr std::size_t rows = 8;
  // W, W/m2, K, 1/K: some 5 % of what each slot adds to.
  constexpr std::array steps{0.05L, 4.0L, 0.05L, 40.0L, 4.0L, 5e-4L, 4.0L, 0.05L};
  std::array<std::array<long double, rows>, rows> table{};
  for (std::size_t i = 0; i < rows; ++i) {
    table[i][0] = difference(slot, steps[slot] / static_cast<long double>(1U << i));
    long double four = 4.0L;
    for (std::size_t k = 1; k <= i; ++k, four *= 4.0L)
      table[i][k] = table[i][k - 1] + (table[i][k - 1] - table[i - 1][k - 1]) / (four - 1.0L);
  }
  return table[rows - 1][rows - 1];
}

double largest_error(const Sensitivities& found) {
  long double largest = 0.0L;
  for (std::size_t s = 0; s < error_slots; ++s)
    largest =
        std::max(largest, std::abs(static_cast<long double>(found[s]) / derivative(s) - 1.0L));
  return static_cast<double>(largest);
}

template <Sensitivities (*way)(const NormalisedReading&)>
void sensitivities(benchmark::State& state) {
  NormalisedReading varied = reading;
  for (auto _ : state) {
    benchmark::DoNotOptimize(varied);
    benchmark::DoNotOptimize(way(varied));
  }
  state.counters["largest_relative_error"] = largest_error(way(reading));
}

BENCHMARK_TEMPLATE(sensitivities, measured::by_dual);
BENCHMARK_TEMPLATE(sensitivities, measured::by_boost_each);
BENCHMARK_TEMPLATE(sensitivities, measured::by_boost_joint);

}  // namespace

BENCHMARK_MAIN();
