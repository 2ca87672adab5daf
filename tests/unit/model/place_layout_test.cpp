#include "hailwright/model/place_layout.hpp"

#include <algorithm>
#include <cmath>
#include <random>

#include "hailwright/evaluate/defaults.hpp"
#include "support/aim_examples.hpp"
#include "support/catch.hpp"
#include "support/input_files.hpp"

using namespace hailwright;
using namespace hailwright::testing;
using input_files::only;

namespace {

constexpr double rounding_m = 1e-9;

const std::vector<Panel>& examples() {
  static const std::vector<Panel> panels{framed_36_cells(), framed_32_cells(), flexible_32_cells()};
  return panels;
}

double apart_m(const PlacedTarget& a, const PlacedTarget& b) {
  return distance(*a.at, *b.at).si();
}

bool discs_overlap(const PlacedTarget& a, const PlacedTarget& b) {
  return apart_m(a, b) < (a.radius + b.radius).si() - rounding_m;
}

/// How far the point is from the nearest edge of a cell: 0 on it.
double to_cell_edge_m(const Panel& panel, Position at) {
  const CellField field = *cell_field(panel);
  double nearest = 1e9;
  for (int row = 0; row < field.across; ++row) {
    for (int column = 0; column < field.along; ++column) {
      const Glass cell = cell_at(field, column, row);
      const double inside = depth_in(cell, at).si();
      const double off = inside >= 0.0 ? inside : distance(nearest_in(cell, at), at).si();
      nearest = std::min(nearest, off);
    }
  }
  return nearest;
}

/// The rule of each kind, written once more without the program's own lists of points.
void check_place(const Panel& panel, const PlacedTarget& place, double ball_m) {
  const Glass glass = *glass_of(panel);
  const Position at = *place.at;
  CAPTURE(place.number, place.what, at.right.si(), at.up.si());
  CHECK(depth_in(glass, at).si() >= ball_m - rounding_m);
  const double side =
      std::min((at.right - glass.low.right).si(), (glass.high.right - at.right).si());
  const double height = std::min((at.up - glass.low.up).si(), (glass.high.up - at.up).si());
  switch (place.kind) {
  case PlaceKind::corner:
    CHECK_THAT(side, WithinAbs(ball_m, rounding_m));
    CHECK_THAT(height, WithinAbs(ball_m, rounding_m));
    break;
  case PlaceKind::edge:
    CHECK_THAT(std::min(side, height), WithinAbs(ball_m, rounding_m));
    break;
  case PlaceKind::cell_edge:
    CHECK(to_cell_edge_m(panel, at) <= panel.cells->gap.si() / 2.0 + rounding_m);
    break;
  case PlaceKind::near_mount: {
    // Within half a ball diameter of some mount, or where no whole ball gets nearer to it.
    bool near = false;
    for (const Position mount : panel.mounting_points) {
      const double off = distance(at, mount).si();
      const Glass room = *room_for_ball(glass, Length::from_si(ball_m));
      near = near ||
             off <= std::max(ball_m, distance(nearest_in(room, mount), mount).si()) + rounding_m;
    }
    CHECK(near);
    break;
  }
  case PlaceKind::junction_box:
    CHECK(std::abs((at.right - panel.junction_box->at.right).si()) <=
          panel.junction_box->width.si() / 2.0 + rounding_m);
    CHECK(std::abs((at.up - panel.junction_box->at.up).si()) <=
          panel.junction_box->height.si() / 2.0 + rounding_m);
    break;
  case PlaceKind::cell_centre:
    CHECK(to_cell_edge_m(panel, at) > 0.0);
    break;
  case PlaceKind::far_from_mounts:
  case PlaceKind::named:
    break;
  }
}

/// What holds on every panel.
void check_layout(const Protocol& protocol, const Panel& panel, const PlaceLayout& layout) {
  REQUIRE(layout.series.size() == protocol.series.size());
  std::vector<PlacedTarget> earlier;
  for (std::size_t s = 0; s < layout.series.size(); ++s) {
    const auto& places = layout.series[s];
    REQUIRE(places.size() == protocol.series[s].places.size());
    for (std::size_t i = 0; i < places.size(); ++i) {
      CAPTURE(places[i].number, places[i].what, places[i].why_not);
      CHECK(places[i].at.has_value() == places[i].why_not.empty());
      if (!places[i].at) continue;
      CHECK_FALSE(places[i].what.empty());
      check_place(panel, places[i], protocol.series[s].target.diameter.si() / 2.0);
      for (std::size_t k = 0; k < i; ++k)
        CHECK((!places[k].at || !discs_overlap(places[i], places[k])));
      const bool repeats = std::any_of(earlier.begin(), earlier.end(), [&](const PlacedTarget& e) {
        return discs_overlap(places[i], e);
      });
      CHECK(places[i].repeats_earlier == repeats);
    }
    for (const PlacedTarget& place : places) {
      if (place.at) earlier.push_back(place);
    }
  }
}

std::vector<PlaceKind> kinds(const std::vector<PlacedTarget>& places) {
  std::vector<PlaceKind> all;
  for (const PlacedTarget& place : places)
    all.push_back(place.kind);
  return all;
}

Place at(const std::string& name, Position position, int line) {
  return {name, position, {1, line, 1, 1}};
}

Diagnostic message(const Panel& panel, std::vector<Place> places) {
  Protocol protocol;
  protocol.series = {listed_series("small", std::move(places))};
  return only(layout_places(protocol, panel, usual_place_radius).notes);
}

}  // namespace

TEST_CASE("place_layout: the default size of a place is that of docs/defaults.md") {
  CHECK(defaults::place_size == 25.0_mm);
  CHECK(usual_place_radius == defaults::place_size);
}

TEST_CASE("place_layout: eleven places, then five, on three builds of panel") {
  for (const Panel& panel : examples()) {
    CAPTURE(panel.name);
    const Protocol protocol = eleven_and_five();
    const PlaceLayout layout = placed(protocol, panel);
    check_layout(protocol, panel, layout);
    int number = 0;
    for (const auto& series : layout.series) {
      for (const PlacedTarget& place : series) {
        CAPTURE(place.name, place.why_not);
        CHECK(place.at);
        CHECK(place.number == ++number);
        CHECK(place.radius == 25.0_mm);
        // Only the box has no second place of its kind.
        CHECK(place.repeats_earlier == (place.name == "16"));
      }
    }
    // The order of IEC 61215-2, editions 2016 and 2021: from memory, its text was not read.
    const bool mounts = !panel.mounting_points.empty();
    const PlaceKind mount = mounts ? PlaceKind::near_mount : PlaceKind::far_from_mounts;
    CHECK(kinds(layout.series[0]) ==
          std::vector<PlaceKind>{PlaceKind::corner, PlaceKind::edge, PlaceKind::cell_edge,
                                 PlaceKind::cell_edge, PlaceKind::cell_edge, PlaceKind::cell_edge,
                                 mount, mount, PlaceKind::far_from_mounts,
                                 PlaceKind::far_from_mounts, PlaceKind::junction_box});
    CHECK(kinds(layout.series[1]) == std::vector<PlaceKind>{PlaceKind::corner, PlaceKind::edge,
                                                            PlaceKind::cell_edge, mount,
                                                            PlaceKind::junction_box});
  }
}

TEST_CASE("place_layout: joints and row edges are both among the eleven") {
  const PlaceLayout layout = placed(eleven_and_five(), framed_36_cells());
  for (const std::size_t i : {2U, 3U})
    CHECK_THAT(layout.series[0][i].what, Contains("between cells"));
  for (const std::size_t i : {4U, 5U})
    CHECK_THAT(layout.series[0][i].what, Contains("between rows"));
}

TEST_CASE("place_layout: far places are as far as a finer search finds") {
  const Panel panel = framed_36_cells();
  Protocol protocol;
  protocol.series = {
      listed_series("small", {{"far from mounts", std::nullopt, {}, PlaceKind::far_from_mounts}})};
  const PlaceLayout layout = placed(protocol, panel);
  const Glass glass = *glass_of(panel);
  const auto far_m = [&](Position p) {
    double nearest = depth_in(glass, p).si();
    for (const Position mount : panel.mounting_points)
      nearest = std::min(nearest, distance(p, mount).si());
    return nearest;
  };
  double best_m = 0.0;
  for (int right = 25; right <= 995; ++right) {
    for (int up = 25; up <= 485; ++up)
      best_m = std::max(best_m, far_m(mm(right, up)));
  }
  // Half a diagonal of the grid of 5 mm is the most that a point on it can miss.
  CHECK(far_m(*layout.series[0][0].at) >= best_m - 0.0025 * std::sqrt(2.0));
}

TEST_CASE("place_layout: later series move on until nothing of the kind is free") {
  Protocol protocol;
  for (int s = 0; s < 6; ++s) {
    protocol.series.push_back(listed_series(
        std::to_string(s), {{"corner " + std::to_string(s), std::nullopt, {}, PlaceKind::corner},
                            {"edge " + std::to_string(s), std::nullopt, {}, PlaceKind::edge}}));
  }
  const PlaceLayout layout = placed(protocol, framed_32_cells());
  check_layout(protocol, framed_32_cells(), layout);
  for (std::size_t s = 0; s < 6; ++s) {
    CAPTURE(s);
    // Four corners; four middles of sides, and then quarter points.
    CHECK(layout.series[s][0].repeats_earlier == (s >= 4));
    CHECK_FALSE(layout.series[s][1].repeats_earlier);
    const bool quarter = layout.series[s][1].what.find("quarter") != std::string::npos;
    CHECK(quarter == (s >= 4));
  }
}

TEST_CASE("place_layout: other counts and other names have no position") {
  Protocol protocol;
  protocol.series = {counted_series("a", "IEC 61215 25 mm", 1, 7),
                     listed_series("b", {{"logo", std::nullopt, {}, std::nullopt}})};
  const PlaceLayout layout = placed(protocol, framed_36_cells());
  for (const auto& series : layout.series) {
    for (const PlacedTarget& place : series) {
      CHECK_FALSE(place.at);
      CHECK_THAT(place.why_not, Contains("neither the protocol nor its name"));
      CHECK(place.kind == PlaceKind::named);
    }
  }
  // Eleven names are no count of eleven.
  std::vector<Place> names;
  for (int i = 0; i < 11; ++i)
    names.push_back({"n" + std::to_string(i), std::nullopt, {}, std::nullopt});
  protocol.series = {listed_series("c", names)};
  CHECK_FALSE(placed(protocol, framed_36_cells()).series[0][0].at);
}

TEST_CASE("place_layout: what the panel file does not name is not invented") {
  Protocol protocol = eleven_and_five();
  Panel panel = framed_36_cells();
  panel.cells.reset();
  panel.junction_box.reset();
  const PlaceLayout layout = placed(protocol, panel);
  check_layout(protocol, panel, layout);
  CHECK(layout.series[0][2].why_not == "the panel file names no cells");
  CHECK(layout.series[0][10].why_not == "the panel file names no junction_box");
  // A mount asked for by name stays without a place; the set takes far places instead.
  protocol.series = {listed_series("a", {{"near mount", std::nullopt, {}, PlaceKind::near_mount}})};
  panel.mounting_points.clear();
  CHECK(placed(protocol, panel).series[0][0].why_not == "the panel file names no mounts");
  panel.size.reset();
  CHECK(placed(eleven_and_five(), panel).series[0][0].why_not == "the panel file names no size");
  panel.size = Outline{20.0_mm, 10.0_mm, std::nullopt};
  CHECK(placed(eleven_and_five(), panel).series[0][0].why_not == "the frame leaves no glass");
  panel.size = Outline{60.0_mm, 40.0_mm, std::nullopt};
  CHECK_THAT(placed(eleven_and_five(), panel).series[0][0].why_not, Contains("too small"));
  panel.size = Outline{120.0_mm, 100.0_mm, std::nullopt};
  CHECK_THAT(placed(eleven_and_five(), panel).series[0][9].why_not, Contains("no room is left"));
}

TEST_CASE("place_layout: typed positions are kept and the others keep off them") {
  Protocol protocol;
  protocol.series = {listed_series("a", {at("mine", mm(60, 60), 1),
                                         {"corner", std::nullopt, {}, PlaceKind::corner},
                                         {"2", std::nullopt, {}, std::nullopt}}),
                     listed_series("b", {at("again", mm(70, 60), 2)})};
  const PlaceLayout layout = placed(protocol, framed_36_cells());
  CHECK(distance(*layout.series[0][0].at, mm(60, 60)).si() == 0.0);
  CHECK(apart_m(layout.series[0][0], layout.series[0][1]) >= 0.05);
  CHECK(layout.series[1][0].repeats_earlier);
  // "2" keeps its number; the others take 1, 3, 4.
  CHECK(layout.series[0][0].number == 1);
  CHECK(layout.series[0][1].number == 3);
  CHECK(layout.series[0][2].number == 2);
  CHECK(layout.series[1][0].number == 4);
}

TEST_CASE("place_layout: faults of typed positions at their places") {
  Panel panel = framed_36_cells();
  const Diagnostic outside = message(panel, {at("out", mm(100, 600), 3)});
  CHECK(outside.code == "C09");
  CHECK(outside.where.line == 3);
  panel.frame = 20.0_mm;
  const Diagnostic on_frame = message(panel, {at("edge", mm(255, 12), 4)});
  CHECK(on_frame.code == "C25");
  CHECK(on_frame.severity == Severity::error);
  CHECK(on_frame.where.line == 4);
  CHECK(on_frame.message == "place \"edge\" lies on the frame, which is 20.0 mm wide");
  CHECK_THAT(on_frame.hints.at(0), Contains("from 32.5 mm inside"));
  const Diagnostic reaches = message(panel, {at("edge", mm(255, 30), 5)});
  CHECK(reaches.code == "C27");
  CHECK(reaches.severity == Severity::warning);
  CHECK_THAT(reaches.message, Contains("reaches 2.5 mm over the frame"));
  CHECK(reaches.hints.size() == 1);
  const Diagnostic close = message(panel, {at("a", mm(100, 100), 6), at("b", mm(140, 100), 7)});
  CHECK(close.code == "C26");
  CHECK(close.where.line == 7);
  CHECK(close.related.at(0).where.line == 6);
  CHECK_THAT(close.message, Contains("40.0 mm apart, and each reaches 25.0 mm"));
}

TEST_CASE("place_layout: no error rests on a frame that was taken") {
  const Diagnostic note = message(framed_36_cells(), {at("edge", mm(255, 5), 1)});
  CHECK(note.code == "C27");
  CHECK(note.severity == Severity::warning);
  CHECK_THAT(note.message, Contains("reaches 19.5 mm over the frame"));
  CHECK_THAT(note.hints.at(1), Contains("frame: 12.0 mm"));
  // Without a frame the edge is what a ball reaches over.
  CHECK_THAT(message(flexible_32_cells(), {at("edge", mm(255, 5), 1)}).message,
             Contains("reaches 7.5 mm over the edge"));
}

TEST_CASE("place_layout: a panel without a size still has its overlaps found") {
  Panel panel;
  CHECK(message(panel, {at("a", mm(100, 100), 1), at("b", mm(110, 100), 2)}).code == "C26");
}

TEST_CASE("place_layout: positions that were taken before change nothing") {
  Protocol protocol = eleven_and_five();
  protocol.series.push_back(listed_series("c", {at("mine", mm(300, 230), 1)}));
  const PlaceLayout first = placed(protocol, framed_36_cells());
  take_positions(first, protocol);
  for (const SeriesPlan& series : protocol.series) {
    for (const Place& place : series.places) {
      CHECK(place.at);
      CHECK(place.found == (place.name != "mine"));
    }
  }
  const PlaceLayout second = placed(protocol, framed_36_cells());
  for (std::size_t s = 0; s < first.series.size(); ++s) {
    for (std::size_t i = 0; i < first.series[s].size(); ++i) {
      CHECK(apart_m(first.series[s][i], second.series[s][i]) == 0.0);
      CHECK(first.series[s][i].what == second.series[s][i].what);
    }
  }
}

namespace {

/// Rectangular panels of all builds, drawn by a fixed generator.
class RandomPanels {
public:
  Panel next() {
    Panel panel;
    panel.build = static_cast<Build>(whole(0, 2));
    const double long_mm = 300.0 + uniform(1700.0);
    panel.size = Outline{Length::from_si(long_mm / 1000.0),
                         Length::from_si(long_mm * (0.25 + uniform(0.75)) / 1000.0), std::nullopt};
    if (panel.build == Build::framed_glass && whole(0, 3) > 0)
      panel.frame = Length::from_si(uniform(0.035));
    if (whole(0, 5) > 0) {
      panel.cells = CellGrid{whole(1, 12), whole(1, 8), Length::from_si(uniform(0.03)),
                             Length::from_si(uniform(0.004))};
    }
    for (int i = whole(0, 6); i > 0; --i)
      panel.mounting_points.push_back(somewhere(panel));
    if (whole(0, 4) > 0) {
      panel.junction_box = JunctionBox{somewhere(panel), Length::from_si(0.02 + uniform(0.1)),
                                       Length::from_si(0.02 + uniform(0.1))};
    }
    return panel;
  }
  Protocol protocol() {
    Protocol protocol = eleven_and_five();
    for (SeriesPlan& series : protocol.series)
      series.place_radius = Length::from_si(0.005 + uniform(0.03));
    std::vector<Place> named;
    for (const std::string& word : place_kind_words())
      named.push_back({word, std::nullopt, {}, find_place_kind(word)});
    protocol.series.push_back(listed_series("named", named));
    return protocol;
  }

private:
  double uniform(double high) { return high * static_cast<double>(random_()) / 4294967296.0; }
  int whole(int low, int high) { return low + static_cast<int>(uniform(high - low + 1.0)); }
  Position somewhere(const Panel& panel) {
    return {uniform(1.0) * panel.size->long_side, uniform(1.0) * panel.size->short_side};
  }
  std::mt19937 random_{20260614};
};

}  // namespace

TEST_CASE("place_layout: on any rectangular panel the rules hold") {
  RandomPanels random;
  int with_position = 0;
  int without = 0;
  for (int i = 0; i < 100; ++i) {
    CAPTURE(i);
    const Panel panel = random.next();
    const Protocol protocol = random.protocol();
    const PlaceLayout layout = placed(protocol, panel);
    check_layout(protocol, panel, layout);
    std::vector<int> numbers;
    for (const auto& series : layout.series) {
      for (const PlacedTarget& place : series) {
        numbers.push_back(place.number);
        ++(place.at ? with_position : without);
      }
    }
    std::sort(numbers.begin(), numbers.end());
    CHECK(std::adjacent_find(numbers.begin(), numbers.end()) == numbers.end());
  }
  // Both happen, so that neither rule was checked on nothing.
  CHECK(with_position > 1500);
  CHECK(without > 100);
}

TEST_CASE("place_layout: a repeat is forced") {
  RandomPanels random;
  int repeats = 0;
  for (int i = 0; i < 50; ++i) {
    const Panel panel = random.next();
    const Protocol protocol = random.protocol();
    const PlaceLayout layout = placed(protocol, panel);
    for (std::size_t s = 0; s < layout.series.size(); ++s) {
      const auto glass = glass_of(panel);
      for (const PlacedTarget& place : layout.series[s]) {
        if (place.kind != PlaceKind::corner || !place.at || !place.repeats_earlier) continue;
        ++repeats;
        const Glass room = *room_for_ball(*glass, protocol.series[s].target.diameter / 2.0);
        for (const Position corner : {room.low, room.high, Position{room.low.right, room.high.up},
                                      Position{room.high.right, room.low.up}}) {
          bool taken = false;
          for (std::size_t e = 0; e <= s; ++e) {
            for (const PlacedTarget& other : layout.series[e]) {
              if (!other.at || (e == s && &other == &place)) continue;
              taken = taken || distance(*other.at, corner) < other.radius + place.radius;
            }
          }
          CHECK(taken);
        }
      }
    }
  }
  CHECK(repeats > 0);
}
