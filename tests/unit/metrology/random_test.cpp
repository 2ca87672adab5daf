#include "hailwright/metrology/random.hpp"

#include <cmath>

#include "support/catch.hpp"

using namespace hailwright;

TEST_CASE("the same seed gives the same numbers, another seed others") {
  RandomStream a(1);
  RandomStream b(1);
  RandomStream c(2);
  const auto first = a.bits();
  CHECK(first == b.bits());
  CHECK(first != c.bits());
}

// Moments of the distributions, by their known values; 4 standard errors of 200,000 draws.
TEST_CASE("uniform, normal and chi squared have their moments") {
  RandomStream random(7);
  const int n = 200000;
  double u = 0.0;
  double z = 0.0;
  double zz = 0.0;
  double chi = 0.0;
  for (int i = 0; i < n; ++i) {
    u += random.uniform();
    const double x = random.normal();
    z += x;
    zz += x * x;
  }
  for (int i = 0; i < n / 10; ++i)
    chi += random.chi_squared(6);
  CHECK_THAT(u / n, WithinAbs(0.5, 4.0 / std::sqrt(12.0 * n)));
  CHECK_THAT(z / n, WithinAbs(0.0, 4.0 / std::sqrt(n)));
  CHECK_THAT(zz / n, WithinAbs(1.0, 4.0 * std::sqrt(2.0 / n)));
  CHECK_THAT(chi / (n / 10), WithinAbs(6.0, 4.0 * std::sqrt(12.0 / (n / 10))));
}
