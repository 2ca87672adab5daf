#include "report/hit_map_labels.hpp"

#include "support/catch.hpp"
#include "support/struck_panel.hpp"

using namespace hailwright;
using namespace hailwright::detail;
using namespace hailwright::testing;

namespace {

struct Labelling {
  explicit Labelling(const Test& test) : panel(test.record.panel, svg, hit_map_width) {
    const Assessment assessment = assess(test);
    content = *hit_map_content({&test, &assessment});
    labels = place_map_labels(content, panel);
  }
  Svg svg;
  PanelPicture panel;
  HitMapContent content;
  MapLabels labels;
};

}  // namespace

TEST_CASE("hit map labels: few numbers in full, many in short") {
  CHECK(short_numbers({3}) == "3");
  CHECK(short_numbers({3, 4}) == "3, 4");
  CHECK(short_numbers({3, 7, 9}) == "3, 7, 9");
  CHECK(short_numbers({8, 9, 10, 11}) == "8 to 11");
  CHECK(short_numbers({3, 7, 9, 12, 13}) == "3, 7 +3");
}

TEST_CASE("hit map labels: a number of a hit in its place stands inside the place") {
  Test test = panel_to_strike();
  add_throw(test, throw_at(test, 0, 4, Landing::in));
  add_throw(test, throw_at(test, 1, 2, Landing::in));  // number 2, in a frame
  for (int i = 0; i < 9; ++i)
    add_throw(test, throw_at(test, 0, 0, Landing::miss));
  add_throw(test, throw_at(test, 0, 2, Landing::in));  // number 12
  const Labelling l(test);
  int hits = 0;
  for (const MapLabel& label : l.labels.placed) {
    CHECK(label.label.inside == (label.kind == MapLabel::Kind::hit));
    if (label.kind == MapLabel::Kind::hit) ++hits;
  }
  CHECK(hits == 3);
}

TEST_CASE("hit map labels: hits beside a place have their distance written, the others not") {
  Test test = panel_to_strike();
  for (const double off_mm : {10.0, 60.0}) {
    Shot shot = throw_at(test, 0, 4, Landing::offset);
    shot.where = Position{Length::from_si(off_mm / 1000.0), {}};
    add_throw(test, shot);
  }
  const Labelling l(test);
  std::vector<std::string> words;
  for (const MapLabel& label : l.labels.placed) {
    if (label.kind == MapLabel::Kind::hit) words.push_back(label.words);
  }
  CHECK(words == std::vector<std::string>{"2: 60 mm", "1"});
}

TEST_CASE("hit map labels: up to 60 throws nothing touches and nothing is lost") {
  std::mt19937_64 random(11);
  for (int throws = 1; throws <= 60; ++throws) {
    const Labelling l(randomly_struck(random, throws));
    CAPTURE(throws);
    const auto& placed = l.labels.placed;
    std::size_t wanted = l.content.in_places.size() + l.content.spots.size() + 16;
    CHECK(placed.size() + l.labels.crowded.size() == wanted);
    for (std::size_t i = 0; i < placed.size(); ++i) {
      for (std::size_t k = 0; k < i; ++k)
        CHECK_FALSE(touch(placed[i].label.box, placed[k].label.box));
    }
  }
}
