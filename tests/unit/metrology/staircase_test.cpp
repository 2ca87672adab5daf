#include "hailwright/metrology/staircase.hpp"

#include <cmath>
#include <vector>

#include "support/catch.hpp"

using namespace hailwright;

namespace {

/// Tests by the rule from level 0 of a grid, with the outcomes as given.
std::vector<ProbitTest> by_the_rule(const StaircaseGrid& grid, const std::vector<int>& ones) {
  std::vector<ProbitTest> tests;
  int level = 0;
  for (const int one : ones) {
    tests.push_back({grid.at(level), one == 1});
    level = next_level(level, one == 1);
  }
  return tests;
}

/// As of the published test in probit_test.cpp: it begins at 25.4 and its steps are 0.05 in the
/// common logarithm.
const std::vector<int> published{0, 1, 0, 0, 0, 1, 0, 0, 1, 1, 1, 0, 1,
                                 0, 1, 0, 0, 0, 1, 1, 0, 0, 1, 0, 1};

}  // namespace

// By hand, after Dixon and Mood: 11 ones against 14 zeros, so the ones count. Levels from 28.5 up:
// 1, 3, 3, 4 of them; A = 21, B = 51; 120/121; location x0 + d (21/11 - 1/2),
// scale 1.62 d (120/121 + 0.029).
TEST_CASE("the sums of an up and down test") {
  const StaircaseGrid grid{std::log10(25.4), 0.05};
  const StaircaseEstimate e = estimate_staircase(by_the_rule(grid, published), grid);
  CHECK(e.obstacle == StaircaseObstacle::none);
  CHECK(e.counts_ones);
  CHECK(e.counted == 11);
  CHECK_THAT(e.spread.value(), WithinRel(120.0 / 121.0, 1e-12));
  CHECK_THAT(e.location.value(), WithinRel(grid.at(1) + 0.05 * (21.0 / 11.0 - 0.5), 1e-12));
  CHECK_THAT(e.scale.value(), WithinRel(1.62 * 0.05 * (120.0 / 121.0 + 0.029), 1e-12));
}

// The same seen from above: outcomes and direction exchanged, the zeros count.
TEST_CASE("the rarer outcome counts, and the estimate is the same in a mirror") {
  const StaircaseGrid grid{0.0, 1.0};
  std::vector<int> turned;
  for (const int one : published)
    turned.push_back(1 - one);
  const StaircaseEstimate up = estimate_staircase(by_the_rule(grid, published), grid);
  const StaircaseEstimate down = estimate_staircase(by_the_rule(grid, turned), grid);
  CHECK_FALSE(down.counts_ones);
  CHECK_THAT(down.location.value(), WithinAbs(-up.location.value(), 1e-12));
  CHECK_THAT(down.scale.value(), WithinRel(up.scale.value(), 1e-12));
}

TEST_CASE("the probit agrees with the sums where these hold") {
  const StaircaseGrid grid{0.0, 1.0};
  const std::vector<ProbitTest> tests = by_the_rule(grid, published);
  const auto fit = fit_probit(tests);
  REQUIRE(fit);
  const StaircaseEstimate e = estimate_staircase(tests, grid);
  CHECK_THAT(e.location.value(), WithinAbs(fit->location, 0.2));
  CHECK_THAT(e.scale.value(), WithinRel(fit->scale, 0.3));
}

TEST_CASE("what stands beside the formulas is refused with its reason") {
  using enum StaircaseObstacle;
  const StaircaseGrid grid{0.0, 1.0};
  std::vector<ProbitTest> tests = by_the_rule(grid, published);

  SECTION("between two levels") {
    tests[4].x += 0.26;
    const StaircaseEstimate e = estimate_staircase(tests, grid);
    CHECK(e.obstacle == off_grid);
    CHECK(e.at == 4);
    CHECK_FALSE(e.location);
  }
  SECTION("near its level it counts") {
    tests[4].x += 0.24;
    CHECK(estimate_staircase(tests, grid).obstacle == none);
  }
  SECTION("a step to the wrong side") {
    tests[3].x -= 2.0;
    const StaircaseEstimate e = estimate_staircase(tests, grid);
    CHECK(e.obstacle == rule_broken);
    CHECK(e.at == 3);
  }
  SECTION("fewer than fifteen") {
    tests.resize(14);
    CHECK(estimate_staircase(tests, grid).obstacle == few_tests);
    tests = by_the_rule(grid, published);
    tests.resize(15);
    CHECK(estimate_staircase(tests, grid).obstacle != few_tests);
  }
  SECTION("no outcome of one kind, or no test") {
    CHECK(estimate_staircase(by_the_rule(grid, std::vector<int>(20, 0)), grid).obstacle ==
          one_outcome);
    CHECK(estimate_staircase({}, grid).obstacle == one_outcome);
  }
  SECTION("steps too wide: up and down between two levels") {
    std::vector<int> wide;
    for (int i = 0; i < 20; ++i)
      wide.push_back(i % 2);
    const StaircaseEstimate e = estimate_staircase(by_the_rule(grid, wide), grid);
    CHECK(e.obstacle == scale_too_low);
    CHECK_THAT(e.scale.value(), WithinAbs(1.62 * 0.029, 1e-12));
  }
  SECTION("steps too narrow: long ways up and down") {
    std::vector<int> narrow;
    for (int i = 0; i < 30; ++i)
      narrow.push_back(i / 5 % 2);
    const StaircaseEstimate e = estimate_staircase(by_the_rule(grid, narrow), grid);
    CHECK(e.obstacle == scale_too_high);
  }
  SECTION("a level that no number of steps reaches") {
    tests[0].x = 1e300;
    CHECK(estimate_staircase(tests, grid).obstacle == off_grid);
  }
}
