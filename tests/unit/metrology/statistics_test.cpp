#include "hailwright/metrology/statistics.hpp"

#include <vector>

#include "hailwright/core/contract.hpp"
#include "support/catch.hpp"

using namespace hailwright;

// NIST StRD univariate, certified values, read: NumAcc1 to NumAcc4 by their construction. In
// doubles the inputs of NumAcc3 and NumAcc4 cannot be held exactly, hence their tolerances.
TEST_CASE("mean and standard deviation of the NIST accuracy sets") {
  const auto pairs = [](double first, double low, double high) {
    std::vector<double> v{first};
    for (int i = 0; i < 500; ++i) {
      v.push_back(low);
      v.push_back(high);
    }
    return v;
  };
  const std::vector<double> acc1{10000001, 10000003, 10000002};
  CHECK(mean(acc1) == 10000002.0);
  CHECK(sample_sd(acc1).value() == 1.0);
  CHECK_THAT(lag1_autocorrelation(acc1).value(), WithinAbs(-0.5, 1e-12));
  struct Row {
    std::vector<double> data;
    double mean, sd_rel, r1_abs;
  };
  for (const Row& r : {Row{pairs(1.2, 1.1, 1.3), 1.2, 1e-12, 1e-12},
                       Row{pairs(1000000.2, 1000000.1, 1000000.3), 1000000.2, 2e-9, 2e-8},
                       Row{pairs(10000000.2, 10000000.1, 10000000.3), 10000000.2, 2e-8, 2e-7}}) {
    CAPTURE(r.mean);
    CHECK_THAT(mean(r.data), WithinRel(r.mean, 1e-14));
    CHECK_THAT(sample_sd(r.data).value(), WithinRel(0.1, r.sd_rel));
    CHECK_THAT(lag1_autocorrelation(r.data).value(), WithinAbs(-0.999, r.r1_abs));
  }
}

// NIST TN 1900 example E2; data from memory, reproduced.
TEST_CASE("a mean of 22 temperatures") {
  const std::vector<double> t{18.75, 28.25, 25.75, 28.0,  28.5, 20.75, 21.0, 22.75,
                              18.5,  27.25, 20.75, 26.5,  28.0, 23.25, 28.0, 21.75,
                              26.0,  26.5,  28.0,  33.25, 32.0, 29.5};
  CHECK_THAT(mean(t), WithinRel(25.59090909090909, 1e-12));
  CHECK_THAT(sample_sd(t).value(), WithinRel(4.09234582755348, 1e-9));
}

TEST_CASE("one value has no spread") {
  const std::vector<double> one{3.0};
  CHECK_FALSE(sample_sd(one).has_value());
  CHECK_FALSE(lag1_autocorrelation(one).has_value());
  CHECK_THROWS_AS(mean(std::vector<double>{}), BugError);
}

// case neff, computed: n / (1 + 2 sum (1 - k/n) r^k).
TEST_CASE("effective number of autocorrelated readings") {
  CHECK_THAT(effective_count(12, 0.3), WithinAbs(6.837209, 1e-5));
  CHECK_THAT(effective_count(12, 0.535199668621283), WithinAbs(4.151871, 1e-5));
  CHECK_THAT(effective_count(12, 0.9), WithinAbs(1.45694, 1e-5));
  CHECK_THAT(effective_count(100, 0.535199668621283), WithinAbs(30.737298, 1e-5));
  CHECK(effective_count(12, -0.8) == 12.0);
  CHECK(effective_count(1, 0.5) == 1.0);
  CHECK_THROWS_AS(effective_count(0, 0.5), BugError);
}

TEST_CASE("slope of a straight line") {
  const std::vector<double> x{1, 2, 3, 4};
  const std::vector<double> y{3, 5, 7, 9};
  CHECK_THAT(slope(x, y).value(), WithinRel(2.0, 1e-14));
  CHECK_FALSE(slope(std::vector<double>{1, 1, 1}, std::vector<double>{1, 2, 3}).has_value());
  CHECK_FALSE(slope(std::vector<double>{1, 2}, std::vector<double>{1, 2}).has_value());
}
