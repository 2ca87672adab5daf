#include "report/hit_map_legend.hpp"

#include <algorithm>

#include "support/catch.hpp"
#include "support/markup.hpp"
#include "support/struck_panel.hpp"
#include "support/test_builder.hpp"

using namespace hailwright;
using namespace hailwright::detail;
using namespace hailwright::testing;

namespace {

/// All words of the legend, a line each.
std::string legend_of(const Test& test) {
  const Assessment assessment = assess(test);
  const Judged judged{&test, &assessment};
  const HitMapContent content = *hit_map_content(judged);
  Svg svg;
  const PanelPicture panel(test.record.panel, svg, hit_map_width);
  std::string words;
  for (const LegendEntry& entry :
       hit_map_legend(judged, content, place_map_labels(content, panel).crowded))
    words += entry.words + "\n";
  return words;
}

std::string description_of(const Test& test) {
  const Assessment assessment = assess(test);
  const Judged judged{&test, &assessment};
  return hit_map_description(judged, *hit_map_content(judged));
}

Test with_throws(const std::vector<Landing>& landings) {
  Test test = panel_to_strike();
  for (const Landing landing : landings)
    add_throw(test, throw_at(test, 0, 0, landing));
  return test;
}

}  // namespace

TEST_CASE("hit map legend: misses and broken balls are listed, and their absence said") {
  using enum Landing;
  const Test some = with_throws({miss, in, broke, miss, miss});
  CHECK_THAT(legend_of(some),
             Contains("missed the panel: throws 1, 4 and 5; broke before it: throw 3\n"));
  CHECK_THAT(description_of(some),
             Contains("missed the panel: throws 1, 4 and 5; broke before it: throw 3."));
  CHECK_THAT(legend_of(with_throws({in})),
             Contains("no throw missed the panel; none broke before it\n"));
}

TEST_CASE("hit map legend: explains the marks that occur and no others") {
  using enum Landing;
  const std::string in_place = legend_of(with_throws({in}));
  CHECK_THAT(in_place, Contains("a number without a mark") && !Contains("where it was measured") &&
                           !Contains("on no place"));
  Test test = panel_to_strike();
  Shot shot = throw_at(test, 0, 4, offset);
  shot.where = Position{Length::from_si(0.06), {}};
  add_throw(test, shot);
  CHECK_THAT(legend_of(test), Contains("hit on no place of its series") &&
                                  !Contains("where it was measured") &&
                                  !Contains("a number without a mark"));
  CHECK_THAT(description_of(test), Contains("On no place, with the distance from the one aimed "
                                            "at: throw 1 (60 mm)."));
}

TEST_CASE("hit map legend: many throws in one place are all named below") {
  using enum Landing;
  CHECK_THAT(legend_of(with_throws({in, miss, in, miss, in, miss, in})),
             Contains("in P1: throws 1, 3, 5 and 7\n"));
  CHECK_THAT(legend_of(with_throws({in, in, in, in})), !Contains("in P1:"));
}

TEST_CASE("hit map legend: places with names of their own are named") {
  Test test = panel_to_strike();
  test.protocol.series.resize(1);
  test.protocol.series[0].places_counted = false;
  test.protocol.series[0].places = {
      {"cell joint", Position{Length::from_si(0.4), Length::from_si(0.2)}, {}}};
  test.record.looks.resize(1);
  CHECK_THAT(legend_of(test), Contains("places: cell joint P1\n"));
}

// Found by review: what a place is stood in tooltips alone, and a reader has no aim map.
TEST_CASE("hit map legend: what each place is, those of one kind together") {
  CHECK_THAT(legend_of(panel_to_strike()),
             Contains("places: corner P1 and P12; edge P2 and P13; cell edge P3, P4"));
}

// Found by review: places of two series on one spot hid one of their lines.
TEST_CASE("hit map legend: places of two series on one spot are said to be drawn inside") {
  Test test = panel_to_strike();
  const char* const words = "one inside the other";
  test.protocol.series.resize(1);
  test.record.looks.resize(1);
  CHECK_THAT(legend_of(test), !Contains(words));
  // P11 and P16 lie over the junction box.
  CHECK_THAT(legend_of(panel_to_strike()), Contains(words));
}

// Found by review: the legend drew tags of places that had found no room on the map.
TEST_CASE("hit map legend: a tag of a place is explained by a sign only where one is drawn") {
  const Test test = with_throws({Landing::in});
  const Assessment assessment = assess(test);
  const Judged judged{&test, &assessment};
  const HitMapContent content = *hit_map_content(judged);
  const auto sign = [&](const std::vector<MapLabel>& crowded) {
    for (const LegendEntry& entry : hit_map_legend(judged, content, crowded)) {
      if (entry.words.starts_with("places: ")) return static_cast<bool>(entry.sign);
    }
    FAIL("no entry for the places");
    return false;
  };
  CHECK(sign({}));
  CHECK_FALSE(sign(std::vector<MapLabel>(16, {MapLabel::Kind::place, "P1", 0, {}})));
}

TEST_CASE("hit map legend: findings as the judgement words them, and those without a place") {
  Test test = with_throws({Landing::in});
  test.record.looks.back().saw = {seen("scuff", "place 14"), seen("broken front", "lower left")};
  const std::string words = legend_of(test);
  CHECK_THAT(words, Contains("scuff (place 14; new, not a major defect)\n"));
  CHECK_THAT(words, Contains("broken front (lower left; new, a major defect), not drawn: its words "
                             "name no place that is drawn\n"));
}

TEST_CASE("hit map legend: what found no room is told") {
  const Test test = with_throws({Landing::in});
  const Assessment assessment = assess(test);
  const Judged judged{&test, &assessment};
  const auto entries = hit_map_legend(judged, *hit_map_content(judged),
                                      {{MapLabel::Kind::hit, "7", 0, {}},
                                       {MapLabel::Kind::hit, "9: 34 mm", 0, {}},
                                       {MapLabel::Kind::hit, "8", 0, {}},
                                       {MapLabel::Kind::place, "P3", 0, {}}});
  CHECK(std::any_of(entries.begin(), entries.end(), [](const LegendEntry& entry) {
    return entry.words ==
           "no room on the panel for the words of throws 7 and 8, throw 9: 34 mm and P3";
  }));
}

TEST_CASE("hit map legend: the two kinds of hits differ by shape, a finding by its frame") {
  const auto drawn = [](const auto& draw) {
    Figure figure;
    figure.id = "x";
    Chart chart(figure, 100.0);
    draw(chart);
    return markup::read(chart.finish()).back().attributes;
  };
  const auto on = drawn([](Chart& chart) { draw_hit(chart, {50.0, 50.0}, false); });
  const auto off = drawn([](Chart& chart) { draw_hit(chart, {50.0, 50.0}, true); });
  CHECK(on.at("fill") == "#000");
  CHECK(off.at("fill") == "none");
  CHECK(on.at("d") != off.at("d"));
  Figure figure;
  figure.id = "x";
  Chart chart(figure, 100.0);
  draw_finding(chart, {50.0, 50.0}, "AB");
  const auto elements = markup::read(chart.finish());
  CHECK(elements.back().text == "AB");
  CHECK_THAT(elements.at(elements.size() - 2).attributes.at("d"), Contains("l7 -10h"));
}
