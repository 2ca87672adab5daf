#include "evaluate/factor_products.hpp"

#include <algorithm>

#include "hailwright/core/contract.hpp"

namespace hailwright {

namespace {

/// A number of readings that the compiler knows, so that it can make vector instructions of the
/// loop over the trials.
template <std::size_t Readings, Begin begin>
[[gnu::always_inline]] inline void
multiply_some(const NormalisedReading* readings, const ErrorColumns& errors, std::size_t trials,
              double* __restrict power, double* __restrict conditions) {
  std::array<NormalisedReading, Readings> some;
  std::copy_n(readings, Readings, some.begin());
  const ErrorColumns column = errors;
  for (std::size_t t = 0; t < trials; ++t) {
    std::array<double, error_slots> error{};
    for (std::size_t s = 0; s < error_slots; ++s)
      error[s] = column[s].size * column[s].draws[t];
    double p = begin == Begin::from_one ? 1.0 : power[t];
    double c = begin == Begin::from_one ? 1.0 : conditions[t];
    for (const NormalisedReading& reading : some) {
      const PowerFactors<double> f = power_factors(reading, error);
      p *= std::max(smallest_factor, f.power);
      c *= std::max(smallest_factor, f.suns) * std::max(smallest_factor, f.temperature);
    }
    power[t] = p;
    conditions[t] = c;
  }
}

}  // namespace

void multiply_factors(std::span<const NormalisedReading> readings, const ErrorColumns& errors,
                      std::span<double> power, std::span<double> conditions, Begin begin,
                      detail::Vectors with) {
  expects(power.size() == conditions.size(), "multiply_factors: sizes");
  expects(!readings.empty(), "multiply_factors: a reading at least");
  const auto these = [&]<std::size_t Readings, Begin from>() {
    detail::run_with(
        with, [&](auto) __attribute__((always_inline)) {
          multiply_some<Readings, from>(readings.data(), errors, power.size(), power.data(),
                                        conditions.data());
        });
  };
  const auto some = [&]<std::size_t Readings>() {
    if (begin == Begin::from_one) {
      these.template operator()<Readings, Begin::from_one>();
    } else {
      these.template operator()<Readings, Begin::from_product>();
    }
    readings = readings.subspan(Readings);
    begin = Begin::from_product;
  };
  while (readings.size() >= 4)
    some.operator()<4>();
  if (readings.size() == 3) return some.operator()<3>();
  if (readings.size() == 2) return some.operator()<2>();
  if (readings.size() == 1) return some.operator()<1>();
}

void divide(std::span<double> over, std::span<const double> under, detail::Vectors with) {
  expects(over.size() == under.size(), "divide: sizes");
  detail::run_with(
      with, [=](auto) __attribute__((always_inline)) {
        for (std::size_t t = 0; t < over.size(); ++t)
          over[t] = std::min(std::max(1e-300, over[t] / under[t]), 1e300);
      });
}

void add_scaled(std::span<double> to, std::span<const double> values, double times,
                detail::Vectors with) {
  expects(to.size() == values.size(), "add_scaled: sizes");
  detail::run_with(
      with, [=](auto) __attribute__((always_inline)) {
        for (std::size_t t = 0; t < to.size(); ++t)
          to[t] += times * values[t];
      });
}

}  // namespace hailwright
