#include "report/chart_legend.hpp"

#include "support/catch.hpp"
#include "support/picture_boxes.hpp"

using namespace hailwright;
using namespace hailwright::detail;
using namespace hailwright::testing;

TEST_CASE("chart_legend: signs in a column and words in lines that keep apart") {
  std::string much;
  for (int i = 0; i < 60; ++i)
    much += "words ";
  const auto sign = [](Chart& chart, Spot at) { chart.mark(at); };
  const Legend legend({{sign, "a reading"}, {sign, much}, {nullptr, much}, {sign, "the last"}},
                      40.0);
  Chart chart({"x", "t", "d", ""}, legend.height());
  legend.draw(chart, 0.0);
  const std::string svg = chart.finish();
  check_texts_apart(svg);
  CHECK(path_starts(svg).size() == 3);
  const auto texts = picture_texts(svg);
  CHECK(texts.front().words == "a reading");
  CHECK(texts.back().words == "the last");
  CHECK(texts.size() > 6);
  CHECK(Legend({}, 40.0).height() == 0.0);
}
