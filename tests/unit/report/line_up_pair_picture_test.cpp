#include <algorithm>
#include <random>

#include "report/line_up_picture.hpp"
#include "support/catch.hpp"
#include "support/golden_picture.hpp"
#include "support/line_up_examples.hpp"
#include "support/markup.hpp"
#include "support/picture_boxes.hpp"

using namespace hailwright;
using namespace hailwright::testing;

namespace {

Figure drawn(const LineUpExample& example) {
  return detail::pair_picture(example.view({}), example.line_up.groups.at(0), "");
}

/// Frames of cells by their look: full, or dashed.
struct Cells {
  int full = 0, dashed = 0;
};

Cells cells_of(const Figure& figure) {
  Cells cells;
  for (const markup::Element& e : markup::read(figure.svg)) {
    const auto dash = e.attributes.find("stroke-dasharray");
    if (e.name != "rect" || dash == e.attributes.end()) continue;
    ++(dash->second == "none" ? cells.full : cells.dashed);
  }
  return cells;
}

}  // namespace

TEST_CASE("line-up pairs: byte for byte as they were looked at") {
  check_golden("line-up-pairs", drawn(five_panels()).svg);
  check_golden("line-up-pairs-many", drawn(many_panels(50)).svg);
}

// Not run with the others: it writes what the test above compares with.
TEST_CASE("line-up pairs: write the pictures to look at", "[.][write-golden]") {
  write_golden("line-up-pairs", drawn(five_panels()).svg);
  write_golden("line-up-pairs-many", drawn(many_panels(50)).svg);
}

TEST_CASE("line-up pairs: a cell for each pair, told in words, by its frame and by its sign") {
  const Figure figure = drawn(five_panels());
  const Cells cells = cells_of(figure);
  CHECK(cells.full == 8);
  CHECK(cells.dashed == 2);
  CHECK_THAT(figure.description,
             Contains("Told apart: Rigid A and Rigid C; Rigid A and Flex D;") &&
                 Contains("Not told apart: Rigid A and Rigid B; Rigid B and Rigid C."));
  CHECK_THAT(picture_words(figure.svg), Contains("which is not the same as none"));
}

TEST_CASE("line-up pairs: whichever of two comes first in the order, its cell is the same") {
  LineUpExample example = five_panels();
  LineUpDifference& d = example.line_up.groups[0].differences.front();
  std::swap(d.better, d.worse);
  CHECK(drawn(example).svg == drawn(five_panels()).svg);
}

TEST_CASE("line-up pairs: of a large group neighbours and the first, of the rows that are shown") {
  const Figure figure = drawn(many_panels(50));
  const std::string words = picture_words(figure.svg);
  CHECK_THAT(words, Contains("and the one before it") && Contains("and the first in the order") &&
                        Contains("10 between, not drawn") && !Contains("Panel 25 "));
  const Cells cells = cells_of(figure);
  CHECK(cells.full + cells.dashed == 2 * 39);
  CHECK_THAT(figure.description, Contains("10 panels between are not drawn."));
}

TEST_CASE("line-up pairs: none told apart, or all") {
  LineUpExample example = five_panels();
  for (LineUpDifference& d : example.line_up.groups[0].differences)
    d.shown = false;
  CHECK_THAT(drawn(example).description, Contains("Told apart: none."));
  for (LineUpDifference& d : example.line_up.groups[0].differences)
    d.shown = true;
  CHECK_THAT(drawn(example).description, Contains("Not told apart: none."));
}

TEST_CASE("line-up pairs: any number of panels, long names, all apart and without colour") {
  std::mt19937_64 random(11);
  for (const std::size_t count : {2U, 3U, 5U, 6U, 7U, 8U, 9U, 10U, 11U, 12U, 13U, 41U}) {
    CAPTURE(count);
    LineUpExample example = many_panels(count);
    for (std::size_t i = 0; i < count; ++i)
      example.entries[i].title = i % 2 == 0 ? std::string(150, 'W') : "<b>\"A\" & =1+1 |x|";
    for (LineUpDifference& d : example.line_up.groups[0].differences)
      d.shown = random() % 2 == 0;
    const Figure figure = drawn(example);
    check_texts_apart(figure.svg);
    check_ink(figure.svg);
    CHECK_THAT(figure.svg, !Contains("<b>"));
  }
}
