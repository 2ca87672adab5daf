#include "report/chart_rows.hpp"

#include "support/catch.hpp"
#include "support/picture_boxes.hpp"

using namespace hailwright;
using namespace hailwright::detail;
using namespace hailwright::testing;

TEST_CASE("chart rows: as high as their words, and never lower than their marks") {
  const std::string long_fact = "a fact that is too long for one line of its column, by far";
  const ChartRows rows(
      {{"a", {"one"}}, {"b", std::vector<std::string>(6, "fact")}, {"c", {long_fact}}}, 60.0);
  const Frame frame = rows.frame(30.0);
  CHECK(frame.top == 30.0);
  CHECK(rows.top(frame, 0) == 30.0);
  CHECK(rows.top(frame, 1) == 90.0);
  CHECK(rows.top(frame, 2) - rows.top(frame, 1) >= 7.0 * 18.0);
  CHECK(rows.top(frame, 3) == frame.bottom);
  CHECK(rows.top(frame, 3) - rows.top(frame, 2) >= 3.0 * 18.0);
}

TEST_CASE("chart rows: words stay left of the frame, within their row") {
  const ChartRows rows(
      {{std::string(200, 'W'), {std::string(40, 'M') + " " + std::string(40, 'M')}},
       {"b", {"second"}}},
      60.0);
  const Frame frame = rows.frame(10.0);
  Figure figure;
  figure.id = "x";
  Chart chart(figure, frame.bottom + 10.0);
  rows.draw(chart, frame);
  const std::string svg = chart.finish();
  check_texts_apart(svg);
  for (const PictureText& text : picture_texts(svg)) {
    CHECK(text.box.middle.x + text.box.width / 2.0 < frame.left);
    if (text.words == "second") CHECK(text.box.middle.y > rows.top(frame, 1));
  }
}

TEST_CASE("chart rows: told in sentences for whoever cannot see them") {
  CHECK(rows_description({{"a", {"one", "two"}}, {"b", {"three"}}}) == "a: one; two. b: three.");
}
