#include "hailwright/model/place_kind.hpp"

#include "support/catch.hpp"

using namespace hailwright;

TEST_CASE("place_kind: every word is found again") {
  const std::vector<std::string> words = place_kind_words();
  CHECK(words.size() == 7);
  for (const std::string& word : words) {
    CAPTURE(word);
    const auto kind = find_place_kind(word);
    REQUIRE(kind);
    CHECK(text(*kind) == word);
    CHECK(kind_in_name(word) == kind);
  }
  CHECK(text(PlaceKind::named) == "named");
  CHECK_FALSE(find_place_kind("named"));
  CHECK_FALSE(find_place_kind("Corner"));
  CHECK_FALSE(find_place_kind(""));
}

TEST_CASE("place_kind: a number behind the word, since a name stands once") {
  CHECK(kind_in_name("corner 2") == PlaceKind::corner);
  CHECK(kind_in_name("cell edge 14") == PlaceKind::cell_edge);
  for (const char* name : {"corner2", "corner 2a", "2 corner", "corner ", "2", "", "left corner"}) {
    CAPTURE(name);
    CHECK_FALSE(kind_in_name(name));
  }
}
