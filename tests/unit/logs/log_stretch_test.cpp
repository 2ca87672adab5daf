#include "hailwright/logs/log_stretch.hpp"

#include "support/catch.hpp"

using namespace hailwright;

TEST_CASE("longest gap: five usual steps from ten seconds to a quarter of an hour") {
  CHECK(usual_longest_gap(0.0).si() == 10.0);
  CHECK(usual_longest_gap(1.0).si() == 10.0);
  CHECK(usual_longest_gap(60.0).si() == 300.0);
  CHECK(usual_longest_gap(180.0).si() == 900.0);
  CHECK(usual_longest_gap(181.0).si() == 900.0);
  // Two rows ten years apart were once bridged.
  CHECK(usual_longest_gap(3.2e8).si() == 900.0);
}

TEST_CASE("series mean: standard uncertainty from the effective number") {
  SeriesMean mean{.count = 400, .mean = 80.0, .sd = 2.0, .lag1 = 0.6, .effective = 100.0};
  CHECK(mean.standard_u().value() == 0.2);
  mean.count = 20;
  mean.effective = 4.0;
  CHECK(mean.standard_u().value() == 1.0);
}

TEST_CASE("series mean: fewer than twenty rows tell no uncertainty") {
  CHECK_FALSE(SeriesMean{}.standard_u());
  CHECK_FALSE(SeriesMean{.count = 19, .sd = 1.0, .effective = 19.0}.standard_u());
}
