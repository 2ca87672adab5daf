#include "hailwright/metrology/distributions.hpp"

#include <cmath>
#include <limits>

#include "hailwright/core/contract.hpp"
#include "support/catch.hpp"

using namespace hailwright;

namespace {
constexpr double infinite = std::numeric_limits<double>::infinity();
}

// R 4.2 qt, computed: case t_quantiles, absolute 1e-6.
TEST_CASE("t quantiles agree with R") {
  struct Row {
    double nu;
    double p95, p975, p995;
  };
  for (const Row& r :
       {Row{1, 6.313752, 12.706205, 63.656741}, Row{2, 2.919986, 4.302653, 9.924843},
        Row{3, 2.353363, 3.182446, 5.840909}, Row{5, 2.015048, 2.570582, 4.032143},
        Row{10, 1.812461, 2.228139, 3.169273}, Row{22, 1.717144, 2.073873, 2.818756},
        Row{120, 1.657651, 1.979930, 2.617421}, Row{infinite, 1.644854, 1.959964, 2.575829}}) {
    CAPTURE(r.nu);
    CHECK_THAT(t_quantile(0.95, r.nu), WithinAbs(r.p95, 1e-6));
    CHECK_THAT(t_quantile(0.975, r.nu), WithinAbs(r.p975, 1e-6));
    CHECK_THAT(t_quantile(0.995, r.nu), WithinAbs(r.p995, 1e-6));
    CHECK_THAT(t_cdf(t_quantile(0.975, r.nu), r.nu), WithinAbs(0.975, 1e-12));
  }
}

// JCGM 106:2012, 7.3 table 1, from memory; computed values beside it.
TEST_CASE("normal quantiles of the conformance table") {
  CHECK_THAT(normal_quantile(0.80), WithinAbs(0.8416212335729143, 1e-12));
  CHECK_THAT(normal_quantile(0.95), WithinAbs(1.6448536269514722, 1e-12));
  CHECK_THAT(normal_quantile(0.999), WithinAbs(3.090232306167813, 1e-12));
  CHECK_THAT(normal_cdf(-normal_quantile(0.95)), WithinAbs(0.05, 1e-15));
}

// R pt, computed: case nct_cdf, absolute 1e-9.
TEST_CASE("non-central t agrees with R") {
  CHECK_THAT(noncentral_t_cdf(2, 10, 1), WithinAbs(0.80761156253, 1e-9));
  CHECK_THAT(noncentral_t_cdf(0, 5, 1), WithinAbs(0.158655253931, 1e-9));
  CHECK_THAT(noncentral_t_cdf(1.5, 22, 3), WithinAbs(0.069479565445, 1e-9));
  CHECK_THAT(noncentral_t_cdf(-1, 8, 0.5), WithinAbs(0.076723093111, 1e-9));
  CHECK_THAT(noncentral_t_cdf(3, 30, -1), WithinAbs(0.999901188361, 1e-9));
  CHECK_THAT(noncentral_t_cdf(2.5, infinite, 2.5), WithinAbs(0.5, 1e-12));
}

// Noncentralities computed with two implementations: case detect_delta_star (alpha 0.05), and the
// row of MEASUREMENT M4 at alpha 0.025, beta 0.1.
TEST_CASE("detectable noncentrality") {
  CHECK_THAT(detectable_noncentrality(3, 0.05, 0.1), WithinAbs(3.92820838, 1e-6));
  CHECK_THAT(detectable_noncentrality(10, 0.05, 0.2), WithinAbs(2.67358471, 1e-6));
  CHECK_THAT(detectable_noncentrality(22, 0.05, 0.1), WithinAbs(3.02132699, 1e-6));
  CHECK_THAT(detectable_noncentrality(infinite, 0.05, 0.1), WithinAbs(2.92640519, 1e-6));
  const double nu[] = {2, 4, 6, 8, 10, 14};
  const double printed[] = {6.796, 4.396, 3.913, 3.712, 3.604, 3.489};
  for (int i = 0; i < 6; ++i) {
    CAPTURE(nu[i]);
    CHECK_THAT(detectable_noncentrality(nu[i], 0.025, 0.1), WithinAbs(printed[i], 0.0005));
  }
}

// R binom.test and statsmodels, computed: case clopper_pearson, absolute 1e-8.
TEST_CASE("exact bounds of a proportion") {
  CHECK_THAT(proportion_upper_bound(0, 11, 0.95), WithinAbs(0.2384041904, 1e-8));
  CHECK_THAT(proportion_upper_bound(0, 5, 0.95), WithinAbs(0.4507197283, 1e-8));
  CHECK_THAT(proportion_upper_bound(1, 11, 0.95), WithinAbs(0.3643594892, 1e-8));
  CHECK_THAT(proportion_upper_bound(3, 11, 0.975), WithinAbs(0.6097425596, 1e-8));
  CHECK_THAT(proportion_lower_bound(3, 11, 0.975), WithinAbs(0.0602177342, 1e-8));
  CHECK_THAT(proportion_upper_bound(15, 200, 0.975), WithinAbs(0.1206842254, 1e-8));
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
}
