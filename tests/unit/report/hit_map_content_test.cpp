#include "report/hit_map_content.hpp"

#include <algorithm>

#include "support/aim_examples.hpp"
#include "support/catch.hpp"
#include "support/struck_panel.hpp"
#include "support/test_builder.hpp"

using namespace hailwright;
using namespace hailwright::detail;
using namespace hailwright::testing;

namespace {

std::optional<HitMapContent> content_of(const Test& test) {
  const Assessment assessment = assess(test);
  return hit_map_content({&test, &assessment});
}

Shot landed_off(const Test& test, std::size_t place, Position from_middle) {
  Shot shot = throw_at(test, 0, place, Landing::offset);
  shot.where = from_middle;
  return shot;
}

PlacedTarget named(const char* name, int number) {
  PlacedTarget place;
  place.name = name;
  place.number = number;
  return place;
}

}  // namespace

TEST_CASE("hit map content: every throw is somewhere, once") {
  std::mt19937_64 random(5);
  for (int i = 0; i < 40; ++i) {
    const Test test = randomly_struck(random, 1 + i);
    const auto content = content_of(test);
    REQUIRE(content);
    std::vector<int> all = content->missed;
    all.insert(all.end(), content->broken.begin(), content->broken.end());
    for (const SpotHit& spot : content->spots)
      all.push_back(spot.number);
    for (const HitMapContent::Undrawn& undrawn : content->undrawn)
      all.push_back(undrawn.number);
    for (const InPlace& in : content->in_places)
      all.insert(all.end(), in.numbers.begin(), in.numbers.end());
    std::sort(all.begin(), all.end());
    REQUIRE(all.size() == test.record.shots.size());
    for (std::size_t k = 0; k < all.size(); ++k)
      CHECK(all[k] == static_cast<int>(k) + 1);
  }
}

TEST_CASE("hit map content: an offset counts from the middle of the place aimed at") {
  Test test = panel_to_strike();
  add_throw(test, landed_off(test, 4, mm(12, -5)));  // on its place, which reaches 25 mm
  add_throw(test, landed_off(test, 4, mm(30, 40)));  // 50 mm off
  const Position aimed = *test.protocol.series[0].places[4].at;
  const auto content = content_of(test);
  REQUIRE(content);
  REQUIRE(content->spots.size() == 2);
  CHECK_FALSE(content->spots[0].off_place);
  CHECK_THAT(content->spots[0].at.right.si(), WithinAbs(aimed.right.si() + 0.012, 1e-12));
  CHECK_THAT(content->spots[0].at.up.si(), WithinAbs(aimed.up.si() - 0.005, 1e-12));
  CHECK(content->spots[1].off_place);
  CHECK_THAT(content->spots[1].off->si(), WithinAbs(0.050, 1e-12));  // 3, 4, 5
}

TEST_CASE("hit map content: hits of one place stand together") {
  Test test = panel_to_strike();
  for (int i = 0; i < 3; ++i)
    add_throw(test, throw_at(test, 1, 2, Landing::in));
  add_throw(test, throw_at(test, 1, 3, Landing::in));
  const auto content = content_of(test);
  REQUIRE(content);
  REQUIRE(content->in_places.size() == 2);
  CHECK(content->in_places[0].numbers == std::vector<int>{1, 2, 3});
  CHECK(content->in_places[1].numbers == std::vector<int>{4});
}

TEST_CASE("hit map content: what has no spot on the panel is told with its reason") {
  Test test = panel_to_strike();
  test.record.panel.junction_box.reset();  // place 11 is over it
  for (SeriesPlan& series : test.protocol.series) {
    for (Place& place : series.places)
      place.at.reset();
  }
  add_throw(test, throw_at(test, 0, 10, Landing::in));
  add_throw(test, landed_off(test, 10, mm(12, -5)));
  add_throw(test, landed_off(test, 0, mm(-2000, 0)));
  const auto content = content_of(test);
  REQUIRE(content);
  REQUIRE(content->undrawn.size() == 3);
  CHECK_THAT(content->undrawn[0].why, Contains("place 11, which has no position"));
  CHECK_THAT(content->undrawn[1].why, Contains("12 x -5 mm from the middle of place 11"));
  CHECK_THAT(content->undrawn[2].why, Contains("on the panel by the record"));
  test.record.panel.size.reset();
  CHECK_FALSE(content_of(test));
}

TEST_CASE("hit map content: how many places of earlier series lie on one spot") {
  const auto at = [](const char* name, Position spot) {
    PlacedTarget place = named(name, 1);
    place.at = spot;
    return place;
  };
  const PlaceLayout layout{
      {{at("a", mm(10, 20)), at("b", mm(30, 20))}, {at("c", mm(10, 20))}, {at("d", mm(10, 20))}}};
  CHECK(places_below(layout, layout.series[0][0], 0) == 0);
  CHECK(places_below(layout, layout.series[1][0], 1) == 1);
  CHECK(places_below(layout, layout.series[2][0], 2) == 2);
  CHECK(places_below(layout, named("nowhere", 1), 2) == 0);
}

TEST_CASE("hit map content: findings are lettered and stand at the place that they name") {
  Test test = panel_to_strike();
  add_throw(test, throw_at(test, 0, 0, Landing::in));
  test.record.looks.back().saw = {seen("scuff", "place 14"), seen("cell crack", "lower left")};
  const auto content = content_of(test);
  REQUIRE(content);
  REQUIRE(content->findings.size() == 2);
  REQUIRE(content->findings[0].at);
  const Position place_14 = *test.protocol.series[1].places[2].at;
  CHECK(content->findings[0].at->right == place_14.right);
  CHECK_FALSE(content->findings[1].at);
}

TEST_CASE("hit map content: a place is found by its whole name") {
  const PlaceLayout layout{{{named("1", 1), named("edge", 2), named("edge 2", 3)}}};
  CHECK(place_named(layout, "place 1")->number == 1);
  CHECK(place_named(layout, "at place 1, lower rim")->number == 1);
  CHECK(place_named(layout, "place 14") == nullptr);
  CHECK(place_named(layout, "place edge")->number == 2);
  CHECK(place_named(layout, "place edge 2 (back)")->number == 3);
  CHECK(place_named(layout, "marketplace 1") == nullptr);
  CHECK(place_named(layout, "edge") == nullptr);
  CHECK(place_named(layout, "place ") == nullptr);
}
