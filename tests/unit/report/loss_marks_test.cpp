#include "report/loss_marks.hpp"

#include <algorithm>

#include "report/shown_loss.hpp"
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

TEST_CASE("loss marks: empty and dashed where no answer is drawn") {
  PowerResult power = estimated();
  std::vector<double> values;
  show_loss(values, power);
  const Scale x = linear_scale(values, frame.left, frame.right);
  const auto dash = [&] {
    return drawn([&](Chart& chart) { draw_interval(chart, x, power, 80.0); })
        .back()
        .attributes.at("stroke-dasharray");
  };
  const auto marks = [&] {
    const auto elements = drawn([&](Chart& chart) { draw_loss(chart, x, power, 80.0); });
    return std::count_if(elements.begin(), elements.end(),
                         [](const markup::Element& e) { return e.name == "path"; });
  };
  CHECK(dash() == "none");
  CHECK(marks() == 2);  // ring and middle
  power.decides = false;
  CHECK(dash() == "5 4");
  CHECK(marks() == 1);
}

// Found by review: words beside the mark of the smallest loss cut the line of the limit.
TEST_CASE("loss marks: the number of an estimate stands in a frame beside its band") {
  PowerResult power = estimated();
  const double middle = 100.0 * power.estimate.loss().si();
  for (const Ends ends : {Ends{middle - 20.0, middle + 2.0}, Ends{middle - 2.0, middle + 20.0}}) {
    const std::vector<double> values{ends.low, ends.high};
    const Scale x = linear_scale(values, frame.left, frame.right);
    Figure figure;
    figure.id = "x";
    Chart chart(figure, 200.0);
    draw_loss(chart, x, power, 80.0);
    draw_smallest_shown(chart, x, power, 110.0);
    const auto texts = picture_texts(chart.finish());
    REQUIRE(texts.size() == 1);
    CHECK(texts[0].words == loss_text(power.estimate.loss(), power));
    CHECK(texts[0].box.middle.x - texts[0].box.width / 2.0 >= frame.left);
    CHECK(texts[0].box.middle.x + texts[0].box.width / 2.0 <= frame.right);
    CHECK((texts[0].box.middle.x > x.at(middle)) == (ends.high - middle > 10.0));
  }
}

// Found by review: "loss -4.9 %" of a panel that seems to have gained power.
TEST_CASE("loss marks: a gain is called so where all of its interval is one") {
  CHECK_THAT(loss_or_gain(judged(TestBuilder().loss(-0.06))),
             Catch::Matchers::StartsWith("seems to have gained 6.") && !Contains("-"));
  CHECK_THAT(loss_or_gain(judged(TestBuilder().loss(0.06))),
             Catch::Matchers::StartsWith("loss 6."));
  CHECK_THAT(loss_or_gain(judged(TestBuilder().loss(0.0))), Catch::Matchers::StartsWith("loss"));
}

TEST_CASE("loss marks: a strip is light up to the limit and dark beyond it") {
  const std::vector<double> ends{-10.0, 10.0};
  const Scale x = linear_scale(ends, frame.left, frame.right);
  const auto elements = drawn([&](Chart& chart) { draw_zones(chart, frame, x, percent(5)); });
  const auto& within = elements.at(elements.size() - 2).attributes;
  const auto& beyond = elements.back().attributes;
  CHECK_THAT(std::stod(within.at("x")), WithinAbs(x.at(0.0), 0.01));
  CHECK_THAT(std::stod(within.at("width")), WithinAbs(x.at(5.0) - x.at(0.0), 0.02));
  CHECK_THAT(std::stod(beyond.at("x")), WithinAbs(x.at(5.0), 0.01));
  CHECK_THAT(std::stod(beyond.at("width")), WithinAbs(frame.right - x.at(5.0), 0.02));
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
    all.draw_words(chart, placed);
    all.draw_lines(chart, placed);
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
  // The level of the interval, where all have one.
  CHECK_THAT(loss_legend({&usable}).front().words, Contains("its 95 % interval"));
  PowerResult extended = usable;
  extended.estimate.alpha = 0.0125;
  CHECK_THAT(loss_legend({&usable, &extended}).front().words, Contains("its interval"));
}

// Found by review: an interval that goes on below -100 % ended there in a cap, as if it were known.
TEST_CASE("loss marks: an interval that goes on beyond the axis ends in an arrow") {
  PowerResult power = estimated();
  const auto arrows = [&] {
    std::vector<double> values;
    show_loss(values, power);
    const Scale x = linear_scale(values, frame.left, frame.right);
    const auto elements = drawn([&](Chart& chart) { draw_interval(chart, x, power, 80.0); });
    const auto paths = std::count_if(elements.begin(), elements.end(),
                                     [](const auto& e) { return e.name == "path"; });
    return paths - 1;  // the band
  };
  CHECK(arrows() == 0);
  power.estimate.expanded = 30.0;
  CHECK(arrows() == 1);
}

// Found by review: on an axis of 200 % the line up to "limit 5 %" ran through "no change".
TEST_CASE("loss marks: words stand on the lines that run through them") {
  const std::vector<double> ends{-100.0, 100.0};
  const Scale x = linear_scale(ends, frame.left, frame.right);
  const LossLevels levels({{0.0, "no change", {1.5}}, {5.0, "limit 5 %", {2.5}}}, frame, x);
  const auto elements = drawn([&](Chart& chart) { levels.draw_words(chart, frame); });
  const auto at = [&](std::string_view words) {
    return std::find_if(elements.begin(), elements.end(),
                        [&](const auto& e) { return e.text == words; });
  };
  REQUIRE(at("no change") != elements.end());
  CHECK(at("limit 5 %") < at("no change"));
  const auto& ground = *std::prev(at("no change"));
  CHECK(ground.name == "rect");
  CHECK(ground.attributes.at("fill") == "#fff");
  CHECK(std::prev(at("limit 5 %"))->name != "rect");
}
