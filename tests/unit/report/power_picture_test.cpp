#include <cmath>
#include <random>

#include "hailwright/evaluate/assessment.hpp"
#include "hailwright/report/pictures.hpp"
#include "support/catch.hpp"
#include "support/golden_picture.hpp"
#include "support/judged_power.hpp"
#include "support/picture_boxes.hpp"
#include "support/real_files.hpp"

using namespace hailwright;
using namespace hailwright::testing;

namespace {

struct Example {
  std::string golden, record;
};

// One against a control, one against siblings.
const std::vector<Example>& examples() {
  static const std::vector<Example> all{{"power-control", "rigid-withstood"},
                                        {"power-siblings", "flexible-siblings"}};
  return all;
}

Figure figure_of(const Example& example) {
  const Test test = read_record("protocols/demo/" + example.record + ".yaml");
  const Assessment assessment = assess(test);
  const auto figure = power_picture({&test, &assessment}, assessment.power.front());
  REQUIRE(figure);
  return *figure;
}

std::optional<Figure> drawn(const Test& test, std::string_view suffix = "") {
  const PowerResult power = judged(test);
  return power_picture({&test, nullptr}, power, suffix);
}

/// All that is drawn of readings, means and levels lies within the axis, marks with their size.
void check_marks_inside(const std::string& svg) {
  constexpr double size = 8.0;
  for (const char* stroke : {"#000", "#707070"}) {
    for (const detail::Spot s : path_starts(svg, stroke)) {
      CAPTURE(s.x, s.y);
      CHECK(s.x >= 40.0 - size);
      CHECK(s.x <= 840.0 + size);
      CHECK(s.y >= 40.0 - size);
    }
  }
}

}  // namespace

TEST_CASE("power_picture: byte for byte as it was looked at") {
  for (const Example& example : examples())
    check_golden(example.golden, figure_of(example).svg);
}

// Not run with the others: it writes what the test above compares with.
TEST_CASE("power_picture: write the pictures to look at", "[.][write-golden]") {
  for (const Example& example : examples())
    write_golden(example.golden, figure_of(example).svg);
}

TEST_CASE("power_picture: ids end as told and nothing is drawn without a comparison") {
  const Test test = TestBuilder().build();
  const auto figure = drawn(test, "-2");
  REQUIRE(figure);
  CHECK(figure->id == "power-by-set-up-after-2");
  CHECK_THAT(figure->svg, Contains("id=\"power-by-set-up-after-2-title\""));
  CHECK_FALSE(drawn(TestBuilder().setups(1, 1).build()));
}

TEST_CASE("power_picture: black and greys alone and no small text") {
  check_ink(drawn(TestBuilder().build())->svg);
}

TEST_CASE("power_picture: a result without an answer is drawn open and says so") {
  const Test test = TestBuilder().build();
  PowerResult power = judged(test);
  const std::string valid = power_picture({&test, nullptr}, power)->svg;
  CHECK_THAT(picture_words(valid), !Contains("no answer is drawn from it"));
  CHECK_THAT(valid, !Contains("\"4 3\""));
  power.valid = false;
  const std::string open = power_picture({&test, nullptr}, power)->svg;
  CHECK_THAT(picture_words(open), Contains("no answer is drawn from it"));
  CHECK_THAT(open, Contains("\"4 3\""));
}

TEST_CASE("power_picture: words of a user stay words") {
  Test test = TestBuilder().siblings(3, 0.01).build();
  test.record.title = "<b>\"A\" & =1+1 |x|";
  test.record.siblings[1].label = "</svg><script>";
  const auto figure = drawn(test);
  REQUIRE(figure);
  CHECK_THAT(figure->title, Contains("<b>\"A\" & =1+1 |x|"));
  CHECK_THAT(figure->svg, Contains("&lt;b&gt;&quot;A&quot; &amp; =1+1 |x|") &&
                              Contains("unit &lt;/svg&gt;&lt;script&gt;") && !Contains("<script"));
  check_texts_apart(figure->svg);
}

TEST_CASE("power_picture: thousands of readings become their spread and the picture stays small") {
  const Test few = TestBuilder().setups(10, 10).rounds(30).build();
  const auto single = drawn(few);
  REQUIRE(single);
  CHECK_THAT(picture_words(single->svg),
             Contains("600 rounds") && !Contains("too many to draw one by one"));
  CHECK(single->svg.size() < 60'000);
  const Test many = TestBuilder().setups(20, 20).rounds(200).build();
  const auto dense = drawn(many);
  REQUIRE(dense);
  CHECK_THAT(picture_words(dense->svg),
             Contains("8000 rounds") && Contains("too many to draw one by one"));
  CHECK(dense->svg.size() < 40'000);
  check_texts_apart(dense->svg);
  check_marks_inside(dense->svg);
}

TEST_CASE(
    "power_picture: what was left out far off stands at the edge and does not squeeze the rest") {
  Test test = TestBuilder().same_panel().build();
  const std::string before = drawn(test)->svg;
  Reading far = test.record.readings.front();
  far.round = 99;
  far.power = Power::from_si(0.1);
  far.skip = "a bird";
  test.record.readings.push_back(far);
  const std::string after = drawn(test)->svg;
  CHECK_THAT(after,
             Contains("1 reading left out; the table of readings says why; 1 lies beyond the "
                      "axis, drawn at its edge"));
  const auto axis = [](const std::string& svg) {
    std::vector<std::string> figures;
    for (const PictureText& t : picture_texts(svg)) {
      if (t.box.middle.x < 95.0 && t.box.middle.y < 425.0) figures.push_back(t.words);
    }
    return figures;
  };
  CHECK(axis(before) == axis(after));
  check_marks_inside(after);
}

TEST_CASE("power_picture: a wide interval does not squeeze the readings and goes on in arrows") {
  const Test test = TestBuilder().build();
  PowerResult power = judged(test);
  CHECK_THAT(picture_words(power_picture({&test, nullptr}, power)->svg),
             !Contains("where an arrow stands"));
  power.estimate.expanded = 2.0;
  const std::string svg = power_picture({&test, nullptr}, power)->svg;
  CHECK_THAT(picture_words(svg), Contains("it goes on where an arrow stands"));
  check_marks_inside(svg);
}

// Property: every size and kind of test, long names, many days, tiny and huge powers.
TEST_CASE("power_picture: no text on another one and all marks inside") {
  std::mt19937_64 random(17);
  std::uniform_real_distribution<double> share(0.0, 1.0);
  int pictures = 0;
  for (int i = 0; i < 160; ++i) {
    const int most = i % 4 == 0 ? 20 : 6;
    TestBuilder b;
    if (i % 3 == 1) b.same_panel();
    if (i % 3 == 2) b.siblings(3 + static_cast<int>(random() % 18), 0.05 * share(random));
    b.setups(2 + static_cast<int>(random() % static_cast<unsigned>(most)),
             2 + static_cast<int>(random() % static_cast<unsigned>(most)));
    b.rounds(1 + static_cast<int>(random() % 8));
    b.loss(std::pow(share(random), 3.0)).setup_scatter(std::pow(10.0, -6.0 + 5.0 * share(random)));
    Test test = b.build();
    const double size = std::pow(10.0, -8.0 + 14.0 * share(random));
    for (Reading& r : test.record.readings) {
      r.power = Power::from_si(r.power.si() * size * (1.0 + 0.01 * share(random)));
      if (share(random) < 0.05) r.skip = "cloud";
    }
    if (i % 5 == 0) {
      for (std::size_t k = 0; k < test.record.setups.size(); ++k)
        test.record.setups[k].date =
            "2026-0" + std::to_string(1 + k / 28) + "-" + std::to_string(10 + k % 18);
    }
    if (i % 7 == 0) {
      test.record.title = std::string(300, 'W');
      for (Sibling& s : test.record.siblings)
        s.label += " the one with a name that is a good deal too long for its place";
    }
    const auto figure = drawn(test);
    if (!figure) continue;
    ++pictures;
    CAPTURE(i, size, figure->description);
    check_texts_apart(figure->svg);
    check_marks_inside(figure->svg);
  }
  CHECK(pictures > 120);
}
