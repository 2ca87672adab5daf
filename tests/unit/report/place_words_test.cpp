#include "report/place_words.hpp"

#include "support/catch.hpp"
#include "support/struck_panel.hpp"

using namespace hailwright;
using hailwright::testing::panel_to_strike;

TEST_CASE("place words: where a place lies, or why it has no position") {
  PlacedTarget place;
  place.what = "lower left corner of the glass";
  place.why_not = "the glass is too small for this ball";
  CHECK(what_it_is(place) == "no position: the glass is too small for this ball");
  place.at.emplace();
  CHECK(what_it_is(place) == "lower left corner of the glass");
  place.repeats_earlier = true;
  CHECK(what_it_is(place) == "lower left corner of the glass; an earlier series aims here too");
}

// Found by review: what a place is stood in the tooltip of the map alone.
TEST_CASE("place words: of all places of a series") {
  Test test = panel_to_strike();
  const std::vector<std::string> words = what_places_are(test, 0);
  REQUIRE(words.size() == 11);
  for (const std::string& what : words)
    CHECK_FALSE(what.empty());
  CHECK(words[0].find("corner") != std::string::npos);
  test.record.panel.size.reset();
  CHECK(what_places_are(test, 1).size() == test.protocol.series[1].places.size());
}
