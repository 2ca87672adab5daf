#include <fmt/format.h>

#include <algorithm>

#include "hailwright/report/pictures.hpp"
#include "support/catch.hpp"
#include "support/golden_picture.hpp"
#include "support/markup.hpp"
#include "support/picture_boxes.hpp"
#include "support/real_files.hpp"
#include "support/struck_panel.hpp"
#include "support/test_builder.hpp"

using namespace hailwright;
using namespace hailwright::testing;

namespace {

std::optional<Figure> drawn(const Test& test, std::string_view suffix = "") {
  const Assessment assessment = assess(test);
  return hit_map({&test, &assessment}, suffix);
}

std::string demo(const char* record) {
  const auto figure = drawn(read_record(std::string("protocols/demo/") + record + ".yaml"));
  REQUIRE(figure);
  return figure->svg;
}

}  // namespace

TEST_CASE("hit_map: byte for byte as it was looked at") {
  check_golden("hits-two-series", demo("rigid-withstood"));
  check_golden("hits-named-places", demo("rigid-not-reached"));
}

// Not run with the others: it writes what the test above compares with.
TEST_CASE("hit_map: write the pictures to look at", "[.][write-golden]") {
  write_golden("hits-two-series", demo("rigid-withstood"));
  write_golden("hits-named-places", demo("rigid-not-reached"));
}

TEST_CASE("hit_map: title, description and ids, and nothing without a size") {
  Test test = panel_to_strike();
  add_throw(test, throw_at(test, 0, 0, Landing::in));
  const auto figure = drawn(test, "-2");
  REQUIRE(figure);
  CHECK(figure->id == "hit-map-2");
  CHECK(figure->title == "Hits on Rigid A");
  const auto elements = markup::read(figure->svg);
  CHECK(elements[0].attributes.at("aria-labelledby") == "hit-map-2-title hit-map-2-desc");
  CHECK(elements[1].text == figure->title);
  CHECK(elements[2].text == figure->description);
  for (const markup::Element& element : elements) {
    const auto id = element.attributes.find("id");
    if (id != element.attributes.end()) CHECK(id->second.starts_with("hit-map-2"));
  }
  CHECK(figure->svg == drawn(test, "-2")->svg);
  test.record.panel.size.reset();
  CHECK_FALSE(drawn(test));
}

TEST_CASE("hit_map: every throw is written on it or below it and no text touches another") {
  std::mt19937_64 random(3);
  for (const int throws : {1, 7, 16, 24, 33, 45, 60}) {
    for (int again = 0; again < 4; ++again) {
      Test test = randomly_struck(random, throws);
      if (again == 3) {
        test.record.title = std::string(300, 'W');
        test.protocol.series[1].name = std::string(90, 'M');
        test.record.looks.back().saw = {seen("scuff", "place 14"), seen("scuff", "place 1"),
                                        seen("cell crack", "place 3")};
      }
      const auto figure = drawn(test);
      REQUIRE(figure);
      CAPTURE(throws, again);
      check_texts_apart(figure->svg);
      check_ink(figure->svg);
    }
  }
}

// Found by review: the words of the map were 5 to 8 px high on the first screen.
TEST_CASE("hit_map: its smallest words are 11 px high where it is 600 px wide") {
  const std::string svg = demo("rigid-withstood");
  double smallest = 100.0;
  for (const markup::Element& element : markup::read(svg)) {
    const auto size = element.attributes.find("font-size");
    if (size != element.attributes.end()) smallest = std::min(smallest, std::stod(size->second));
  }
  CHECK(smallest * 600.0 / picture_size(svg).x >= 11.0);
}

TEST_CASE("hit_map: all hits at one spot do not pile up their numbers") {
  Test test = panel_to_strike();
  for (int i = 0; i < 60; ++i) {
    Shot shot = throw_at(test, 0, 4, Landing::offset);
    shot.where = Position{Length::from_si(0.003), Length::from_si(0.002)};
    add_throw(test, shot);
  }
  const auto figure = drawn(test);
  REQUIRE(figure);
  check_texts_apart(figure->svg);
  std::size_t on_the_panel = 0;
  for (const PictureText& text : picture_texts(figure->svg)) {
    const bool number = text.words.find_first_not_of("0123456789") == std::string::npos;
    if (number && text.box.middle.x > 200 && text.box.middle.x < 560 && text.box.middle.y < 345)
      ++on_the_panel;
  }
  CHECK(on_the_panel >= 20);
  CHECK_THAT(picture_words(figure->svg),
             Contains(fmt::format("no room on the panel for the words of throws {} to 60",
                                  on_the_panel + 1)));
}

TEST_CASE("hit_map: a user's words cannot leave their element") {
  Test test = panel_to_strike();
  const std::string nasty = "<b>\"A\" & =1+1 |x|";
  test.record.title = nasty;
  test.protocol.series[0].name = nasty;
  add_throw(test, throw_at(test, 0, 0, Landing::in));
  test.record.looks.back().saw = {seen("scuff", nasty.c_str())};
  const auto figure = drawn(test);
  REQUIRE(figure);
  CHECK_THAT(figure->svg, !Contains("<b>"));
  CHECK_THAT(picture_words(figure->svg),
             Contains(nasty + ": throw 1") && Contains("scuff (" + nasty));
}

// Found by review: a panel that was only loaded had a map that said "no throw missed the panel".
TEST_CASE("hit_map: none where the protocol plans no throws") {
  Test test = panel_to_strike();
  REQUIRE(drawn(test));
  test.protocol.series.clear();
  CHECK_FALSE(drawn(test));
}
