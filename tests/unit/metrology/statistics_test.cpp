#include "hailwright/metrology/statistics.hpp"

#include <cmath>
#include <vector>

#include "hailwright/core/contract.hpp"
#include "support/catch.hpp"

using namespace hailwright;

// Data sets with certified results are in tests/reference: nist_strd, nist_tn1900.
TEST_CASE("mean and standard deviation of a few values") {
  const std::vector<double> v{2.0, 4.0, 4.0, 4.0, 5.0, 5.0, 7.0, 9.0};
  CHECK(mean(v) == 5.0);
  CHECK_THAT(sample_sd(v).value(), WithinRel(std::sqrt(32.0 / 7.0), 1e-15));
}

TEST_CASE("one value has no spread") {
  const std::vector<double> one{3.0};
  CHECK_FALSE(sample_sd(one).has_value());
  CHECK_FALSE(lag1_autocorrelation(one).has_value());
  CHECK_THROWS_AS(mean(std::vector<double>{}), BugError);
}

// Readings whose neighbours resemble each other (autoregressive of first order). Status: computed;
// tolerance 1e-5. The inflation of the variance by 1 + 2 sum rho was read; the short formula
// n (1 - r)/(1 + r) is another number, and falls below one reading.
TEST_CASE("check neff: readings that autocorrelated ones are worth") {
  struct Row {
    int n;
    double r, simple, expected;
  };
  for (const Row& row :
       {Row{12, 0.3, 6.461538, 6.837209}, Row{12, 0.535199668621283, 3.633146, 4.151871},
        Row{12, 0.9, 0.631579, 1.45694}, Row{100, 0.535199668621283, 30.276214, 30.737298}}) {
    CAPTURE(row.n, row.r);
    CHECK_THAT(effective_count(row.n, row.r), WithinAbs(row.expected, 1e-5));
    CHECK_THAT(row.n * (1.0 - row.r) / (1.0 + row.r), WithinAbs(row.simple, 1e-5));
    CHECK(effective_count(row.n, row.r) > row.simple + 0.3);
  }
}

TEST_CASE("an effective number lies between one and all") {
  CHECK(effective_count(12, -0.8) == 12.0);
  CHECK(effective_count(1, 0.5) == 1.0);
  CHECK(effective_count(3, 1.0) >= 1.0);
  CHECK_THROWS_AS(effective_count(0, 0.5), BugError);
}

TEST_CASE("slope of a straight line") {
  const std::vector<double> x{1, 2, 3, 4};
  const std::vector<double> y{3, 5, 7, 9};
  CHECK_THAT(slope(x, y).value(), WithinRel(2.0, 1e-14));
  CHECK_FALSE(slope(std::vector<double>{1, 1, 1}, std::vector<double>{1, 2, 3}).has_value());
  CHECK_FALSE(slope(std::vector<double>{1, 2}, std::vector<double>{1, 2}).has_value());
}

// By hand: blocks 1, 3 and 2, 4, 6 have squares 2 and 8 about their means, with 1 + 2 degrees of
// freedom; a single value adds nothing.
TEST_CASE("pooled scatter of blocks, each about its own mean") {
  PooledScatter pooled;
  pooled.add(std::vector<double>{1.0, 3.0});
  pooled.add(std::vector<double>{2.0, 4.0, 6.0});
  pooled.add(std::vector<double>{9.0});
  CHECK_THAT(pooled.squares, WithinRel(10.0, 1e-14));
  CHECK(pooled.dof == 3.0);
  CHECK_THAT(pooled.sd(), WithinRel(std::sqrt(10.0 / 3.0), 1e-14));
  CHECK_THROWS_AS(PooledScatter().sd(), BugError);
}
