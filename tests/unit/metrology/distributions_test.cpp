#include "hailwright/metrology/distributions.hpp"

#include <cmath>
#include <limits>

#include "hailwright/core/contract.hpp"
#include "support/catch.hpp"

using namespace hailwright;

namespace {
constexpr double infinite = std::numeric_limits<double>::infinity();
}

TEST_CASE("t and normal: distribution function and quantile are each other's inverse") {
  for (const double nu : {0.7, 1.0, 2.0, 5.5, 22.0, 1e4, infinite}) {
    for (const double p : {0.001, 0.05, 0.5, 0.975, 0.9995}) {
      CAPTURE(nu, p);
      CHECK_THAT(t_cdf(t_quantile(p, nu), nu), WithinAbs(p, 1e-12));
    }
  }
  CHECK_THAT(normal_cdf(-normal_quantile(0.95)), WithinAbs(0.05, 1e-15));
}

// The printed tables are in tests/reference: student_t_tables, t_test_power, exact_binomial.
TEST_CASE("t with many degrees of freedom is normal") {
  CHECK_THAT(t_quantile(0.975, 1e9), WithinAbs(normal_quantile(0.975), 1e-8));
  CHECK(t_quantile(0.975, infinite) == normal_quantile(0.975));
  CHECK_THAT(noncentral_t_cdf(2.5, infinite, 2.5), WithinAbs(0.5, 1e-12));
}

// The row of MEASUREMENT M4 at alpha 0.025, beta 0.1.
TEST_CASE("detectable noncentrality as MEASUREMENT M4 prints it") {
  const double nu[] = {2, 4, 6, 8, 10, 14};
  const double printed[] = {6.796, 4.396, 3.913, 3.712, 3.604, 3.489};
  for (int i = 0; i < 6; ++i) {
    CAPTURE(nu[i]);
    CHECK_THAT(detectable_noncentrality(nu[i], 0.025, 0.1), WithinAbs(printed[i], 0.0005));
  }
}

TEST_CASE("bounds of a proportion at its ends") {
  CHECK(proportion_upper_bound(10, 10, 0.95) == 1.0);
  CHECK(proportion_lower_bound(0, 10, 0.95) == 0.0);
}

TEST_CASE("F and chi squared quantiles") {
  // Of one degree of freedom they are squares of normal and t quantiles (identities).
  const double z = normal_quantile(0.975);
  CHECK_THAT(chi_squared_quantile(0.95, 1), WithinRel(z * z, 1e-10));
  const double t = t_quantile(0.975, 7);
  CHECK_THAT(f_quantile(0.95, 1, 7), WithinRel(t * t, 1e-10));
}

TEST_CASE("arguments outside their domain are our bug") {
  CHECK_THROWS_AS(t_quantile(0.5, 0.0), BugError);
  CHECK_THROWS_AS(t_quantile(1.0, 3.0), BugError);
  CHECK_THROWS_AS(normal_quantile(0.0), BugError);
  CHECK_THROWS_AS(proportion_upper_bound(0, 0, 0.95), BugError);
  CHECK_THROWS_AS(detectable_noncentrality(5, 0.5, 0.1), BugError);
  CHECK_THROWS_AS(detectable_noncentrality(5, 0.1, 0.51), BugError);
}

// Found by coverage: `see_chance: 50 %`, which the format allows, ended the program with status 70.
// Found every other time is an effect as large as the threshold: the normal one's median.
TEST_CASE("distributions: an effect that is found every other time lies on the threshold") {
  CHECK_THAT(detectable_noncentrality(infinite, 0.025, 0.5), WithinAbs(1.959964, 1e-6));
  const double few = detectable_noncentrality(4, 0.025, 0.5);
  CHECK_THAT(noncentral_t_cdf(t_quantile(0.975, 4), 4, few), WithinAbs(0.5, 1e-9));
}
