#include "report/chart.hpp"

#include <cmath>
#include <random>

#include "support/catch.hpp"
#include "support/markup.hpp"
#include "support/picture_boxes.hpp"

using namespace hailwright;
using namespace hailwright::detail;
using namespace hailwright::testing;

namespace {

Figure figure() {
  return {"fig", "What <is> \"seen\" & =1+1", "Said |x|", ""};
}

constexpr Frame frame{100.0, 900.0, 50.0, 400.0};

}  // namespace

TEST_CASE("chart: names itself to whoever cannot see it and takes words as they are") {
  Chart chart(figure(), 500.0);
  chart.write({20.0, 40.0}, "<b>\"A\" & =1+1 |x|");
  const std::string svg = chart.finish();
  const auto all = markup::read(svg);
  CHECK(all.front().attributes.at("viewBox") == "0 0 1000 500");
  CHECK(all.front().attributes.at("role") == "img");
  CHECK(all.front().attributes.at("aria-labelledby") == "fig-title fig-desc");
  CHECK(all[1].attributes.at("id") == "fig-title");
  CHECK(all[1].text == "What <is> \"seen\" & =1+1");
  CHECK(all[2].text == "Said |x|");
  CHECK(all.back().text == "<b>\"A\" & =1+1 |x|");
}

TEST_CASE("chart: marks of one look are one element and filled or open") {
  for (const MarkShape shape : {MarkShape::disc, MarkShape::diamond, MarkShape::triangle,
                                MarkShape::cross, MarkShape::ring}) {
    Chart chart(figure(), 500.0);
    chart.marks({{100.0, 100.0}, {200.0, 100.0}}, {shape, true, 5.0});
    chart.mark({300.0, 100.0}, {shape, false, 5.0});
    chart.marks({}, {shape, true, 5.0});
    const std::string svg = chart.finish();
    const auto all = markup::read(svg);
    CHECK(markup::count(all, "path") == 2);
    const bool lines = shape == MarkShape::cross || shape == MarkShape::ring;
    CHECK(all[4].attributes.at("fill") == (lines ? "none" : "#000"));
    CHECK(all[5].attributes.at("fill") == (lines ? "none" : "#fff"));
  }
}

TEST_CASE("chart: a whisker ends in caps or in an arrow where it goes on") {
  const Scale x(Scale::Kind::linear, {0.0, 10.0}, frame.left, frame.right);
  Chart inside(figure(), 500.0);
  inside.whisker_across(x, 2.0, 8.0, 100.0);
  const std::string whole = inside.finish();
  CHECK_THAT(whole, Contains("M260 100L740 100") && Contains("M260 93L260 107") &&
                        Contains("M740 93L740 107") && !Contains("z\""));
  Chart beyond(figure(), 500.0);
  beyond.whisker_across(x, -5.0, 80.0, 100.0);
  const std::string cut = beyond.finish();
  CHECK_THAT(cut, Contains("M100 100L900 100") && Contains("M100 100L107 93L107 107z") &&
                      Contains("M900 100L893 93L893 107z"));
}

TEST_CASE("chart: lines are cut at the frame") {
  struct Case {
    Stretch line;
    std::optional<Stretch> inside;
  };
  // Worked by hand.
  for (const Case& c : std::vector<Case>{
           {{{200.0, 100.0}, {300.0, 200.0}}, Stretch{{200.0, 100.0}, {300.0, 200.0}}},
           {{{0.0, 100.0}, {1000.0, 100.0}}, Stretch{{100.0, 100.0}, {900.0, 100.0}}},
           {{{500.0, 500.0}, {500.0, 0.0}}, Stretch{{500.0, 400.0}, {500.0, 50.0}}},
           {{{50.0, 100.0}, {150.0, 200.0}}, Stretch{{100.0, 150.0}, {150.0, 200.0}}},
           {{{0.0, 20.0}, {1000.0, 20.0}}, std::nullopt},
           {{{0.0, 300.0}, {150.0, 600.0}}, std::nullopt},
           {{{100.0, 50.0}, {100.0, 50.0}}, Stretch{{100.0, 50.0}, {100.0, 50.0}}}}) {
    const auto cut = clipped(c.line, frame);
    CAPTURE(c.line.from.x, c.line.from.y, c.line.to.x, c.line.to.y);
    REQUIRE(cut.has_value() == c.inside.has_value());
    if (!cut) continue;
    CHECK_THAT(cut->from.x, WithinAbs(c.inside->from.x, 1e-9));
    CHECK_THAT(cut->from.y, WithinAbs(c.inside->from.y, 1e-9));
    CHECK_THAT(cut->to.x, WithinAbs(c.inside->to.x, 1e-9));
    CHECK_THAT(cut->to.y, WithinAbs(c.inside->to.y, 1e-9));
  }
}

TEST_CASE("chart: a band holds its stretch and goes on in arrows beyond the axis") {
  const Scale x(Scale::Kind::linear, {0.0, 10.0}, 100.0, 900.0);
  const auto paths = [&](double low, double high) {
    Chart chart(figure(), 200.0);
    chart.band_across(x, low, high, 50.0, 8.0);
    return path_starts(chart.finish(), "");
  };
  REQUIRE(paths(2.0, 4.0).size() == 1);
  CHECK(paths(2.0, 4.0)[0].x == 260.0);
  CHECK(paths(2.0, 4.0)[0].y == 42.0);
  const auto beyond = paths(-3.0, 12.0);
  REQUIRE(beyond.size() == 3);
  CHECK(beyond[1].x == 100.0);  // tip of an arrow
  CHECK(beyond[2].x == 900.0);
  const Scale y(Scale::Kind::linear, {0.0, 10.0}, frame.bottom, frame.top);
  Chart upwards(figure(), 500.0);
  upwards.band_up(y, 2.0, 80.0, 500.0, 7.0);
  CHECK_THAT(upwards.finish(),
             Contains("M493 330L493 50L507 50L507 330z") && Contains("M500 50L493 57L507 57z"));
}

TEST_CASE("chart: a ruler has its ticks inside its strip and its figures below it") {
  const Scale x(Scale::Kind::linear, {0.0, 10.0}, 100.0, 900.0);
  const Frame strip{100.0, 900.0, 40.0, 70.0};
  Chart chart(figure(), 200.0);
  chart.ruler(strip, x);
  chart.ruler_figures(strip, x, "loss");
  const std::string svg = chart.finish();
  for (const Spot start : path_starts(svg, "")) {
    CHECK(start.y > strip.top);
    CHECK(start.y < strip.bottom);
  }
  CHECK(picture_texts(svg).size() >= 4);
  for (const PictureText& text : picture_texts(svg))
    CHECK(text.box.middle.y > strip.bottom);
  check_texts_apart(svg);
}

// Found by review: squares of means hid the readings that they are of.
TEST_CASE("chart: a ring is never filled") {
  Chart chart(figure(), 200.0);
  chart.mark({50.0, 50.0}, {MarkShape::ring, true, 8.0});
  CHECK(markup::read(chart.finish()).back().attributes.at("fill") == "none");
}

TEST_CASE("chart: labels below an axis stand level in rows or upright") {
  const std::vector<double> at{300.0, 320.0};
  const std::vector<std::string> words{"before 1", "before 2"};
  Chart chart(figure(), 540.0);
  chart.labels_below(410.0, labels_along(at, words, 14.0, {100.0, 900.0}), at, words);
  AxisLabels upright = labels_along(at, words, 14.0, {100.0, 900.0});
  upright.upright = true;
  chart.labels_below(450.0, upright, {500.0, 520.0}, words);
  check_texts_apart(chart.finish());
}

// Property: axes of random ranges of both kinds, small to huge.
TEST_CASE("chart: figures at random axes never touch") {
  std::mt19937_64 random(11);
  std::uniform_real_distribution<double> exponent(-6.0, 6.0), share(0.0, 1.0);
  for (int i = 0; i < 400; ++i) {
    const double size = std::pow(10.0, exponent(random));
    const bool log = i % 2 == 1;
    const std::vector<double> values{size,
                                     size * (1.0 + std::pow(10.0, -4.0 + 6.0 * share(random)))};
    const auto scale = [&](double from, double to) {
      return log ? log_scale(values, from, to) : linear_scale(values, from, to);
    };
    Chart chart(figure(), 500.0);
    chart.axis_below(frame, scale(frame.left, frame.right), "energy, J");
    chart.axis_left(frame, scale(frame.bottom, frame.top), "power, W");
    chart.outline(frame);
    const std::string svg = chart.finish();
    CAPTURE(values[0], values[1], log);
    check_texts_apart(svg);
    CHECK(picture_texts(svg).size() >= 4);
  }
}
