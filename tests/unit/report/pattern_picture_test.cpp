#include "report/pattern_picture.hpp"

#include "support/catch.hpp"
#include "support/curve_readings.hpp"
#include "support/picture_boxes.hpp"

using namespace hailwright;
using namespace hailwright::testing;

namespace {

Figure picture_of(CurvePattern pattern, double size, std::uint64_t seed) {
  Test test = test_for_curves();
  test.record.curves = drawn_curves(pattern, size, seed);
  return pattern_picture(*find_loss_pattern(test), "Rigid A", "-2");
}

}  // namespace

TEST_CASE("pattern_picture: no words on words, whatever changed") {
  std::uint64_t seed = 1;
  for (const CurvePattern pattern : all_curve_patterns) {
    CAPTURE(static_cast<int>(pattern));
    check_texts_apart(picture_of(pattern, 0.02, seed++).svg);
  }
  check_texts_apart(picture_of(CurvePattern::part_of_one_cell, 0.7, seed).svg);
}

TEST_CASE("pattern_picture: id, words and what is told apart by shape") {
  const Figure figure = picture_of(CurvePattern::substring_gone, 0.45, 6);
  CHECK(figure.id == "pattern-2");
  CHECK_THAT(figure.title, Contains("Rigid A"));
  CHECK_THAT(figure.description,
             Contains("open-circuit voltage: 22.") && Contains("suggests one substring gone"));
  CHECK_THAT(figure.svg, Contains("as by one substring gone") && Contains("which does not fit") &&
                             Contains("change from before to after in %"));
}
