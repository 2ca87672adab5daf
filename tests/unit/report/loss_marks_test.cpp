#include "report/loss_marks.hpp"

#include <algorithm>

#include "support/catch.hpp"
#include "support/judged_power.hpp"
#include "support/markup.hpp"
#include "support/picture_boxes.hpp"

using namespace hailwright;
using namespace hailwright::detail;
using namespace hailwright::testing;

namespace {

const Frame frame{100.0, 900.0, 40.0, 140.0};

std::vector<markup::Element> drawn(const std::function<void(Chart&)>& draw) {
  Figure figure;
  figure.id = "x";
  Chart chart(figure, 200.0);
  draw(chart);
  return markup::read(chart.finish());
}

PowerResult estimated() {
  return judged(TestBuilder());
}

}  // namespace

TEST_CASE("loss marks: an axis holds all of a result that is drawn") {
  PowerResult power = estimated();
  std::vector<double> values;
  show_loss(values, power);
  const auto holds = [&](Ratio loss) {
    return std::find(values.begin(), values.end(), 100.0 * loss.si()) != values.end();
  };
  CHECK(holds(power.estimate.low()));
  CHECK(holds(power.estimate.high()));
  CHECK(holds(power.smallest_shown));
  power.valid = false;  // no smallest loss counts then, so none is drawn
  values.clear();
  show_loss(values, power);
  CHECK_FALSE(holds(power.smallest_shown));
  power.obstacle = PowerObstacle::no_reading_after;
  values.clear();
  show_loss(values, power);
  CHECK(values.empty());
}

TEST_CASE("loss marks: an absurd loss is cut off at 100 % each way") {
  CHECK(loss_percent(percent(12.5)) == 12.5);
  CHECK(loss_percent(percent(-5000)) == -100.0);
  CHECK(loss_percent(percent(100)) == 100.0);
}

TEST_CASE("loss marks: open and dashed where no answer is drawn") {
  PowerResult power = estimated();
  std::vector<double> values;
  show_loss(values, power);
  const Scale x = linear_scale(values, frame.left, frame.right);
  const auto look = [&] {
    const auto elements = drawn([&](Chart& chart) { draw_loss(chart, x, power, 80.0); });
    return std::pair{elements.at(4).attributes.at("stroke-dasharray"),
                     elements.back().attributes.at("fill")};
  };
  CHECK(look() == std::pair<std::string, std::string>{"none", "#000"});
  power.decides = false;
  CHECK(look() == std::pair<std::string, std::string>{"5 4", "#fff"});
}

TEST_CASE("loss marks: the smallest loss shown has its words on the side with room") {
  PowerResult power = estimated();
  for (const double loss : {1.0, 9.5}) {
    power.smallest_shown = percent(loss);
    const std::vector<double> ends{0.0, 10.0};
    const Scale x = linear_scale(ends, frame.left, frame.right);
    Figure figure;
    figure.id = "x";
    Chart chart(figure, 200.0);
    draw_smallest_shown(chart, frame, x, power, 80.0);
    const std::string svg = chart.finish();
    const auto texts = picture_texts(svg);
    REQUIRE(texts.size() == 1);
    CHECK(texts[0].words == (loss == 1.0 ? "1.0 % would have shown" : "9.5 % would have shown"));
    CHECK(texts[0].box.middle.x + texts[0].box.width / 2.0 <= frame.right);
    CHECK((texts[0].box.middle.x > x.at(loss)) == (loss == 1.0));
  }
}

TEST_CASE("loss marks: levels close together keep their words apart") {
  for (const double reader : {0.0, 0.1, 4.9, 5.0, 5.1}) {
    std::vector<LossLevel> levels{{0.0, "no change", {1.5}},
                                  {5.0, "limit 5 %", {2.5}},
                                  {reader, "a reader's limit of so many %", {2.0, "8 5"}}};
    const std::vector<double> ends{-1.0, 6.0};
    const Scale x = linear_scale(ends, frame.left, frame.right);
    const LossLevels all(std::move(levels), frame, x);
    Frame placed = frame;
    placed.top = all.height() + 16.0;
    placed.bottom = placed.top + 100.0;
    Figure figure;
    figure.id = "x";
    Chart chart(figure, placed.bottom + 10.0);
    all.draw(chart, placed);
    const std::string svg = chart.finish();
    CAPTURE(reader);
    CHECK(picture_texts(svg).size() == 3);
    check_texts_apart(svg);
  }
}

TEST_CASE("loss marks: the legend explains what occurs and no more") {
  const PowerResult usable = estimated();
  PowerResult open = usable;
  open.valid = false;
  PowerResult none = usable;
  none.obstacle = PowerObstacle::no_reading_after;
  PowerResult checked = usable;
  checked.check = MonteCarloCheck{};
  CHECK(loss_legend({&usable}).size() == 1);
  CHECK(loss_legend({&usable, &open}).size() == 2);
  CHECK(loss_legend({&usable, &open, &checked}).size() == 3);
  CHECK(loss_legend({&none}).empty());
}
