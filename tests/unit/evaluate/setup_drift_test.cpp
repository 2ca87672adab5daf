#include "evaluate/setup_drift.hpp"

#include <numeric>

#include "hailwright/core/contract.hpp"
#include "support/catch.hpp"

using namespace hailwright;

namespace {
double applied(const std::vector<double>& weights, const std::vector<double>& values) {
  return std::inner_product(weights.begin(), weights.end(), values.begin(), 0.0);
}
}  // namespace

// The rows of published drift designs are in tests/reference/drift_designs_test.cpp.
TEST_CASE("drift: means and slope of panels that lie on parallel lines") {
  const std::vector<std::size_t> panel{0, 1, 2, 2, 0, 1, 0};
  const std::vector<double> time{0.0, 1.0, 2.0, 3.5, 4.0, 6.0, 7.0};
  const double middle = 23.5 / 7.0;
  std::vector<double> q;
  for (std::size_t i = 0; i < time.size(); ++i)
    q.push_back(5.0 + static_cast<double>(panel[i]) + 0.25 * (time[i] - middle));
  const auto line = means_beside_line(panel, time);
  REQUIRE(line.has_value());
  CHECK_THAT(applied(line->slope, q), WithinAbs(0.25, 1e-12));
  for (std::size_t p = 0; p < 3; ++p) {
    CHECK_THAT(applied(line->mean[p], q), WithinAbs(5.0 + static_cast<double>(p), 1e-12));
    CHECK_THAT(applied(line->mean[p], std::vector<double>(7, 1.0)), WithinAbs(1.0, 1e-12));
  }
}

TEST_CASE("drift: no line where times do not differ inside a panel") {
  const std::vector<std::size_t> panel{0, 0, 1, 1};
  CHECK_FALSE(means_beside_line(panel, std::vector<double>{1, 1, 2, 2}).has_value());
  CHECK_FALSE(means_beside_line(panel, std::vector<double>{3, 3, 3, 3}).has_value());
  CHECK(means_beside_line(panel, std::vector<double>{1, 1, 2, 3}).has_value());
  CHECK_THROWS_AS(means_beside_line(panel, std::vector<double>{1, 2}), BugError);
  CHECK_THROWS_AS(plain_means(std::vector<std::size_t>{0, 2}), BugError);
}

// The bits of the plain means, so that equal weights stay equal.
TEST_CASE("drift: a balanced order gives the plain means themselves") {
  const std::vector<std::size_t> abba{0, 1, 1, 0};
  const auto line = means_beside_line(abba, std::vector<double>{0.1, 0.2, 0.3, 0.4});
  REQUIRE(line.has_value());
  CHECK(line->mean == plain_means(abba).mean);
}
