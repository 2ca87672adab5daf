#include <algorithm>

#include "report/side_by_side.hpp"
#include "support/catch.hpp"
#include "support/golden_picture.hpp"
#include "support/markup.hpp"
#include "support/picture_boxes.hpp"
#include "support/struck_panel.hpp"
#include "support/test_builder.hpp"
#include "support/written_up.hpp"

using namespace hailwright;
using namespace hailwright::testing;

namespace {

std::optional<Figure> drawn(const WrittenUp& records) {
  return detail::side_by_side_energies(records.judged());
}

std::string demos() {
  return drawn(written_demo({"rigid-withstood", "rigid-not-reached", "flexible-siblings"}))->svg;
}

}  // namespace

TEST_CASE("side by side energies: byte for byte as they were looked at") {
  check_golden("energies-side-by-side", demos());
}

// Not run with the others: it writes what the test above compares with.
TEST_CASE("side by side energies: write the picture to look at", "[.][write-golden]") {
  write_golden("energies-side-by-side", demos());
}

TEST_CASE("side by side energies: a row a series, with what is not known said") {
  WrittenUp all;
  Test some = panel_to_strike();
  add_throw(some, throw_at(some, 0, 0, Landing::in));
  add_throw(some, throw_at(some, 1, 0, Landing::miss));
  all.add(some);
  CHECK(drawn(all));
  const std::string words = picture_words(drawn(all)->svg);
  CHECK_THAT(words, Contains("small, aimed at IEC 61215 25 mm: 1.99 J") &&
                        Contains("1 of 11 places hit:") && Contains("no place was hit") &&
                        Contains("rank nothing"));
  CHECK_THAT(drawn(all)->description, Contains("The rows rank nothing."));
  WrittenUp none;
  none.add(panel_to_strike());
  CHECK_FALSE(drawn(none));
}

// Found by review: the mark of what was aimed at covered the bar's end, and no tolerance was drawn.
TEST_CASE("side by side energies: each strip has the edge that a hit is held to") {
  WrittenUp all;
  Test test = panel_to_strike();
  add_throw(test, throw_at(test, 0, 0, Landing::in));
  all.add(test);
  const auto figure = drawn(all);
  REQUIRE(figure);
  CHECK_THAT(picture_words(figure->svg), Contains("what a hit is held to"));
  const auto elements = markup::read(figure->svg);
  const auto thick = std::count_if(elements.begin(), elements.end(), [](const auto& e) {
    const auto width = e.attributes.find("stroke-width");
    return e.name == "path" && width != e.attributes.end() && width->second == "3";
  });
  CHECK(thick == 3);  // of two series, and in the legend
}

TEST_CASE("side by side energies: many records, long names, all apart") {
  std::mt19937_64 random(9);
  WrittenUp all;
  for (int i = 0; i < 12; ++i) {
    Test test = randomly_struck(random, 1 + 4 * i);
    test.record.title = i % 3 == 0 ? std::string(150, 'W') : "<b>\"A\" & =1+1 |x|";
    test.protocol.series[1].name = i % 4 == 0 ? std::string(80, 'M') : "large";
    all.add(std::move(test));
  }
  const auto figure = drawn(all);
  REQUIRE(figure);
  check_texts_apart(figure->svg);
  check_ink(figure->svg);
  CHECK_THAT(figure->svg, !Contains("<b>"));
}
