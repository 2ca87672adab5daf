#include "report/side_by_side.hpp"

#include "hailwright/report/pictures.hpp"
#include "support/catch.hpp"
#include "support/test_builder.hpp"

using namespace hailwright;
using namespace hailwright::testing;

TEST_CASE("side_by_side_pictures: from two records on, each picture where there is one to draw") {
  const Test test = TestBuilder().build();
  const Assessment assessment = assess(test);
  std::vector<Judged> judged{{&test, &assessment}};
  CHECK(side_by_side_pictures(judged).empty());
  judged.push_back(judged.front());
  const auto both = side_by_side_pictures(judged);
  REQUIRE(both.size() == 2);
  CHECK(both[0].id == "losses");
  CHECK(both[1].id == "energies");
  const Test unread = TestBuilder().setups(1, 1).build();
  const Assessment without = assess(unread);
  judged.assign(2, {&unread, &without});
  const auto one = side_by_side_pictures(judged);
  REQUIRE(one.size() == 1);
  CHECK(one[0].id == "energies");
}
