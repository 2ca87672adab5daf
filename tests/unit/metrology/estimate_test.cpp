#include "hailwright/metrology/estimate.hpp"

#include "support/catch.hpp"

using namespace hailwright;

TEST_CASE("one-sided bounds and probabilities are each other's inverse") {
  const Estimate<Speed> v{Speed::from_si(23.4), Speed::from_si(0.4), 11.0};
  const Speed low = lower_bound(v, 0.95);
  CHECK_THAT(probability_at_least(v, low), WithinAbs(0.95, 1e-12));
  CHECK_THAT(upper_bound(v, 0.95).si() - v.value.si(), WithinRel(v.value.si() - low.si(), 1e-12));
}

TEST_CASE("without uncertainty the answer is yes or no") {
  const Estimate<Mass> m{Mass::from_si(0.0075)};
  CHECK(probability_at_least(m, Mass::from_si(0.0075)) == 1.0);
  CHECK(probability_at_least(m, Mass::from_si(0.0076)) == 0.0);
  CHECK(lower_bound(m, 0.95) == m.value);
}
