#include "report/chart_rows.hpp"

#include "support/catch.hpp"
#include "support/picture_boxes.hpp"

using namespace hailwright;
using namespace hailwright::detail;
using namespace hailwright::testing;

TEST_CASE("chart rows: each strip stands below its words, with room above the first") {
  const std::string long_fact =
      "a fact that is too long for one line of its column, by far, and goes on and on until there "
      "is no doubt that it takes two";
  const ChartRows rows(
      {{"a", {"one"}}, {"b", std::vector<std::string>(6, "fact")}, {"c", {long_fact}}}, 30.0, 40.0);
  const Frame frame = rows.frame(50.0);
  CHECK(frame.top == 50.0);
  CHECK(rows.strip(frame, 0).top >= 50.0 + 18.0 + 40.0);
  CHECK(rows.strip(frame, 1).top - rows.strip(frame, 0).bottom >= 6.0 * 18.0);
  CHECK(rows.strip(frame, 2).top - rows.strip(frame, 1).bottom >= 2.0 * 18.0);
  for (std::size_t i = 0; i < 3; ++i)
    CHECK(rows.strip(frame, i).height() == 30.0);
  CHECK(rows.last_strip(frame).bottom == frame.bottom);
  CHECK(rows.last_strip(frame).left == frame.left);
}

// Found by review: words at the left and bars at the right left a third of the width to the bars.
TEST_CASE("chart rows: words stand above their strip, which takes the whole width") {
  const ChartRows rows(
      {{std::string(200, 'W'), {std::string(40, 'M') + " " + std::string(40, 'M')}},
       {"b", {"second"}}},
      30.0);
  const Frame frame = rows.frame(10.0);
  CHECK(frame.width() > 0.9 * chart_width);
  Figure figure;
  figure.id = "x";
  Chart chart(figure, frame.bottom + 10.0);
  rows.draw(chart, frame);
  const std::string svg = chart.finish();
  check_texts_apart(svg);
  for (const PictureText& text : picture_texts(svg)) {
    const double bottom = text.box.middle.y + text.box.height / 2.0;
    const bool second = text.words == "second" || text.words == "b";
    CHECK(bottom <= rows.strip(frame, second ? 1 : 0).top);
    if (second) CHECK(text.box.middle.y > rows.strip(frame, 0).bottom);
  }
}

TEST_CASE("chart rows: told in sentences for whoever cannot see them") {
  CHECK(rows_description({{"a", {"one", "two"}}, {"b", {"three"}}}) == "a: one; two. b: three.");
}
