#include "report/place_marks.hpp"

#include <set>
#include <string>

#include "hailwright/core/contract.hpp"
#include "support/catch.hpp"
#include "support/markup.hpp"

using namespace hailwright;
using namespace hailwright::detail;

TEST_CASE("place marks: numbers in a row become a range, two do not") {
  CHECK(number_ranges({4}) == "4");
  CHECK(number_ranges({2, 1}) == "1 and 2");
  CHECK(number_ranges({3, 1, 2}) == "1 to 3");
  CHECK(number_ranges({11, 1, 2, 3, 5, 10, 4, 8}) == "1 to 5, 8, 10 and 11");
  CHECK(throw_numbers({7}) == "throw 7");
  CHECK(throw_numbers({9, 7, 8}) == "throws 7 to 9");
  CHECK_THROWS_AS(throw_numbers({}), BugError);
}

TEST_CASE("place marks: four series differ by line and by frame") {
  std::set<std::string> dashes;
  std::set<std::pair<double, bool>> frames;
  for (std::size_t series = 0; series < 4; ++series) {
    dashes.insert(style_of(series).dash);
    frames.insert({style_of(series).corner, style_of(series).inverted});
  }
  CHECK(dashes.size() == 4);
  CHECK(frames.size() == 4);
  CHECK(style_of(4).dash == style_of(0).dash);
}

TEST_CASE("place marks: a tag holds its words, white on black where inverted") {
  for (const std::size_t series : {0U, 3U}) {
    Svg svg;
    draw_tag(svg, {{100.0, 50.0}, 30.0, 20.0}, "12", series);
    const auto elements = markup::read("<g>" + svg.str() + "</g>");
    REQUIRE(elements.size() == 3);
    CHECK(elements[1].attributes.at("x") == "85");
    CHECK(elements[1].attributes.at("fill") == (series == 3 ? "#000" : "#fff"));
    CHECK(elements[2].attributes.at("fill") == (series == 3 ? "#fff" : "#000"));
    CHECK(elements[2].text == "12");
  }
}

TEST_CASE("place marks: a disc is titled and its ticks stay inside a small one") {
  Svg svg;
  draw_place_disc(svg, {50.0, 50.0}, 6.0, 1, "place <1>");
  const auto elements = markup::read(svg.str());
  CHECK(elements.at(1).text == "place <1>");
  CHECK(elements.at(2).attributes.at("r") == "6");
  CHECK_THAT(elements.at(3).attributes.at("d"), Contains("M50 44v2M50 56v-2"));
}

TEST_CASE("place marks: a series' name is cut at 36 characters, whole characters") {
  CHECK(legend_name("small") == "small");
  CHECK(legend_name(std::string(36, 'x')) == std::string(36, 'x'));
  CHECK(legend_name(std::string(37, 'x')) == std::string(36, 'x') + "...");
  CHECK(legend_name(std::string(35, 'x') + "\u00e4\u00f6") == std::string(35, 'x') + "\u00e4...");
}
