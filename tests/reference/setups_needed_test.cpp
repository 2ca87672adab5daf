// Numbers of set-ups against power.t.test of R, version 4.2.2 Patched (2022-11-10 r83330), run
// here:
//   power.t.test(alternative = "one.sided", sig.level = alpha, power = chance, sd = 1,
//                delta = effect, tol = 1e-10)$n
// Typed as R printed it; whole set-ups are the next number up. The numbers of case power_t_computed
// are in t_test_power_test.cpp.
#include <cmath>

#include "hailwright/plan/measuring_forecast.hpp"
#include "support/catch.hpp"

using namespace hailwright;

namespace {

struct Row {
  double effect, alpha, chance, n;
};

constexpr Row rows[] = {
    {0.5, 0.05, 0.8, 50.150783},  {0.5, 0.05, 0.9, 69.197822}, {0.5, 0.025, 0.8, 63.765764},
    {0.5, 0.025, 0.9, 85.031313}, {0.5, 0.01, 0.8, 81.655150}, {0.5, 0.01, 0.9, 105.500369},
    {1.0, 0.05, 0.8, 13.097762},  {1.0, 0.05, 0.9, 17.847121}, {1.0, 0.025, 0.8, 16.714760},
    {1.0, 0.025, 0.9, 22.021096}, {1.0, 0.01, 0.8, 21.478855}, {1.0, 0.01, 0.9, 27.433194},
    {1.5, 0.05, 0.8, 6.298688},   {1.5, 0.05, 0.9, 8.386325},  {1.5, 0.025, 0.8, 8.060309},
    {1.5, 0.025, 0.9, 10.401469}, {1.5, 0.01, 0.8, 10.387243}, {1.5, 0.01, 0.9, 13.022994},
    {2.0, 0.05, 0.8, 3.987012},   {2.0, 0.05, 0.9, 5.130950},  {2.0, 0.025, 0.8, 5.090001},
    {2.0, 0.025, 0.9, 6.386756},  {2.0, 0.01, 0.8, 6.553265},  {2.0, 0.01, 0.9, 8.025532},
    {3.0, 0.05, 0.8, 2.462448},   {3.0, 0.05, 0.9, 2.931364},  {3.0, 0.025, 0.8, 3.070010},
    {3.0, 0.025, 0.9, 3.624815},  {3.0, 0.01, 0.8, 3.889511},  {3.0, 0.01, 0.9, 4.539163},
};

}  // namespace

TEST_CASE("setups_needed: R's numbers, rounded up") {
  for (const Row& row : rows) {
    CAPTURE(row.effect, row.alpha, row.chance, row.n);
    CHECK(setups_needed(row.effect, row.alpha, row.chance) == static_cast<int>(std::ceil(row.n)));
  }
}

TEST_CASE("setups_needed: never fewer than two, and small effects end too") {
  CHECK(setups_needed(50.0, 0.05, 0.9) == 2);
  // About (1.959964 + 1.281552)^2 * 2 / effect^2, the normal limit of the formula.
  CHECK_THAT(setups_needed(0.001, 0.025, 0.9), WithinRel(2.0 * 10.507421 * 1e6, 1e-5));
}
