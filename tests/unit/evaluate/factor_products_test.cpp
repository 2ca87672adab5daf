#include "evaluate/factor_products.hpp"

#include <cmath>
#include <limits>
#include <vector>

#include "hailwright/metrology/random.hpp"
#include "support/catch.hpp"

using namespace hailwright;

namespace {

NormalisedReading reading(int n) {
  return {Power::from_si(70.0 + n), Irradiance::from_si(850.0 + 3 * n),
          TemperaturePoint::from_celsius(40.0 + n), TemperatureCoefficient::from_si(-0.0038),
          TemperatureDifference::from_si(3.0)};
}

/// Draws for every slot, in an odd number so that vectors do not fit evenly.
struct SlotDraws {
  static constexpr std::size_t trials = 13;
  std::array<std::vector<double>, error_slots> draws;
  ErrorColumns columns;

  SlotDraws() {
    const std::array sizes{0.01, 0.2, 0.05, 3.0, 1.0, 0.0005, 1.0, 0.0};
    RandomStream random(3);
    for (std::size_t s = 0; s < error_slots; ++s) {
      draws[s].resize(trials);
      for (double& d : draws[s])
        d = random.normal();
      columns[s] = {draws[s].data(), sizes[s]};
    }
  }
  [[nodiscard]] std::array<double, error_slots> errors(std::size_t trial) const {
    std::array<double, error_slots> error{};
    for (std::size_t s = 0; s < error_slots; ++s)
      error[s] = columns[s].size * draws[s][trial];
    return error;
  }
};

struct Products {
  std::vector<double> power = std::vector<double>(SlotDraws::trials, 0.0);
  std::vector<double> conditions = std::vector<double>(SlotDraws::trials, 0.0);
  friend bool operator==(const Products&, const Products&) = default;
};

}  // namespace

TEST_CASE("factor products: many trials at once are the formula one by one") {
  const SlotDraws slots;
  std::vector<NormalisedReading> readings;
  for (int n = 1; n <= 9; ++n) {
    CAPTURE(n);
    readings.push_back(reading(n));
    Products products;
    multiply_factors(readings, slots.columns, products.power, products.conditions, Begin::from_one);
    for (std::size_t t = 0; t < SlotDraws::trials; ++t) {
      double q = 0.0;
      for (const NormalisedReading& r : readings)
        q += log_normalised_power(r, slots.errors(t));
      CHECK_THAT(std::log(products.power[t] / products.conditions[t]), WithinAbs(q, 1e-12));
    }
  }
}

TEST_CASE("factor products: the same bits with every set of vector instructions") {
  const SlotDraws slots;
  std::vector<NormalisedReading> readings;
  for (int n = 0; n < 7; ++n)
    readings.push_back(reading(n));
  const auto with = [&](detail::Vectors vectors) {
    Products p;
    multiply_factors(readings, slots.columns, p.power, p.conditions, Begin::from_one, vectors);
    divide(p.power, p.conditions, vectors);
    add_scaled(p.conditions, p.power, 0.3, vectors);
    return p;
  };
  const Products plain = with(detail::Vectors::plain);
  for (const auto vectors : {detail::Vectors::avx2, detail::Vectors::avx512}) {
    if (vectors <= detail::widest_vectors()) CHECK(with(vectors) == plain);
  }
}

TEST_CASE("factor products: a ratio stays a number that has a logarithm") {
  constexpr double infinity = std::numeric_limits<double>::infinity();
  std::vector over{1.0, 0.0, 1.0, 0.0, infinity};
  divide(over, std::vector{2.0, 1.0, 0.0, 0.0, infinity});
  CHECK(over == std::vector{0.5, 1e-300, 1e300, 1e-300, 1e-300});
}
