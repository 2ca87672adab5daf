#include "hailwright/plan/shot_order.hpp"

#include <algorithm>
#include <map>

#include "support/catch.hpp"

using namespace hailwright;
using namespace hailwright::literals;

namespace {

PlacedTarget place(double right_m, double up_m) {
  PlacedTarget p;
  p.at = Position{Length::from_si(right_m), Length::from_si(up_m)};
  return p;
}

}  // namespace

TEST_CASE("shot_order: each shot goes far from the one before") {
  std::vector<PlacedTarget> places{place(0.0, 0.0), place(0.1, 0.0), place(1.0, 0.0),
                                   place(0.9, 0.0)};
  CHECK(spread_order(places) == std::vector<std::size_t>{0, 2, 1, 3});
}

TEST_CASE("shot_order: places without a position come last") {
  std::vector<PlacedTarget> places(3);
  places[1] = place(0.5, 0.5);
  CHECK(spread_order(places) == std::vector<std::size_t>{1, 0, 2});
  CHECK(spread_order({}).empty());
}

TEST_CASE("shot_order: a seed gives one order of all places") {
  const auto order = random_order(11, 7);
  CHECK(order == random_order(11, 7));
  CHECK(order != random_order(11, 8));
  auto sorted = order;
  std::sort(sorted.begin(), sorted.end());
  for (std::size_t i = 0; i < sorted.size(); ++i)
    CHECK(sorted[i] == i);
}

TEST_CASE("shot_order: every order of three places is as likely") {
  std::map<std::vector<std::size_t>, int> seen;
  constexpr int draws = 6000;
  for (int seed = 0; seed < draws; ++seed)
    ++seen[random_order(3, static_cast<std::uint64_t>(seed))];
  CHECK(seen.size() == 6);
  // Four standard deviations of a count with p = 1/6: sqrt(6000/6 * 5/6) = 28.9.
  for (const auto& [order, count] : seen)
    CHECK(std::abs(count - draws / 6) < 116);
}
