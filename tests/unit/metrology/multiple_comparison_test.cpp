#include "hailwright/metrology/multiple_comparison.hpp"

#include "hailwright/core/contract.hpp"
#include "support/catch.hpp"

using namespace hailwright;

// Printed by R 4.2.2 Patched (2022-11-10 r83330), p.adjust(p, method = "holm") with digits = 17.
TEST_CASE("holm: as R adjusts the same p values") {
  struct Row {
    std::vector<double> p, adjusted;
  };
  const std::vector<Row> rows{
      {{0.01, 0.04, 0.03, 0.005}, {0.03, 0.06, 0.06, 0.02}},
      {{0.02, 0.02, 0.02}, {0.06, 0.06, 0.06}},
      {{0.3, 0.001, 0.04, 0.001, 0.9, 0.012}, {0.6, 0.006, 0.12, 0.006, 0.9, 0.048}},
      {{0.0, 1.0, 0.5}, {0.0, 1.0, 1.0}},
      {{0.013}, {0.013}},
      {{}, {}},
      {{0.05, 0.0125, 0.0167, 0.025, 1.0, 0.0001, 0.2, 0.2, 0.0125, 0.6},
       {0.25, 0.1125, 0.1169, 0.15, 1.0, 0.001, 0.8, 0.8, 0.1125, 1.0}}};
  for (const Row& row : rows) {
    const std::vector<double> adjusted = holm_adjusted(row.p);
    REQUIRE(adjusted.size() == row.adjusted.size());
    for (std::size_t i = 0; i < adjusted.size(); ++i) {
      CAPTURE(i, row.p[i]);
      CHECK_THAT(adjusted[i], WithinAbs(row.adjusted[i], 1e-15));
    }
  }
}

TEST_CASE("holm: what is no probability is refused") {
  CHECK_THROWS_AS(holm_adjusted(std::vector<double>{0.1, -0.1}), BugError);
  CHECK_THROWS_AS(holm_adjusted(std::vector<double>{1.1}), BugError);
}

TEST_CASE("bonferroni: the risk is shared by all intervals") {
  CHECK_THAT(bonferroni_level(0.05, 10), WithinAbs(0.995, 1e-15));
  CHECK_THROWS_AS(bonferroni_level(0.05, 0), BugError);
}
