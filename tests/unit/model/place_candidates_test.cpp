#include "model/place_candidates.hpp"

#include "hailwright/core/contract.hpp"
#include "support/aim_examples.hpp"
#include "support/catch.hpp"

using namespace hailwright;
using namespace hailwright::testing;

namespace {

constexpr double ball_m = 0.0125;

Glass room(const Panel& panel) {
  return *room_for_ball(*glass_of(panel), Length::from_si(ball_m));
}

Candidates find(Wish wish, const Panel& panel) {
  return find_candidates(wish, panel, room(panel), Length::from_si(ball_m));
}

}  // namespace

TEST_CASE("place_candidates: corners and sides lie a ball radius inside the glass") {
  const Panel panel = framed_32_cells();
  const Candidates corners = find(Wish::corner, panel);
  REQUIRE(corners.tiers.size() == 1);
  REQUIRE(corners.tiers[0].size() == 4);
  CHECK(distance(corners.tiers[0][0].at, mm(27.5, 27.5)).si() < 1e-12);
  CHECK(distance(corners.tiers[0][3].at, mm(772.5, 512.5)).si() < 1e-12);
  CHECK(corners.tiers[0][3].what == "upper right corner of the glass");
  const Candidates edges = find(Wish::edge, panel);
  REQUIRE(edges.tiers.size() == 2);
  CHECK(edges.tiers[0].size() == 4);
  CHECK(edges.tiers[1].size() == 8);
  CHECK(distance(edges.tiers[0][0].at, mm(400, 27.5)).si() < 1e-12);
  CHECK(edges.tiers[0][0].what == "middle of the lower side");
}

TEST_CASE("place_candidates: joints lie in the gaps of a row, row edges between rows") {
  const Panel panel = framed_32_cells();
  const Candidates joints = find(Wish::cell_joint, panel);
  REQUIRE(joints.tiers.size() == 3);
  CHECK(joints.tiers[0].size() == 7 * 4);
  // First gap: 28 + 90.375 + 1.5 mm; first row: 28 + 118.75 / 2 mm.
  CHECK(distance(joints.tiers[0][0].at, mm(119.875, 87.375)).si() < 1e-12);
  CHECK(joints.tiers[0][0].what == "over the edge between cells 1 and 2 of row 1");
  const Candidates rows = find(Wish::row_edge, panel);
  CHECK(rows.tiers[0].size() == 8 * 3);
  CHECK(distance(rows.tiers[0][0].at, mm(73.1875, 148.25)).si() < 1e-12);
  CHECK(find(Wish::cell_centre, panel).tiers[0].size() == 32);
}

TEST_CASE("place_candidates: one cell has only outer edges, and those where the ball fits") {
  Panel panel = flexible_32_cells();
  panel.cells = CellGrid{1, 1, 20.0_mm, 0.0_mm};
  const Candidates edges = find(Wish::cell_joint, panel);
  REQUIRE(edges.tiers.size() == 1);
  CHECK(edges.tiers[0].size() == 4);
  panel.cells->margin = 10.0_mm;
  CHECK(find(Wish::cell_joint, panel).why_not == "no ball fits there beside the frame");
  panel.cells.reset();
  CHECK(find(Wish::row_edge, panel).why_not == "the panel file names no cells");
  CHECK(find(Wish::cell_centre, panel).tiers.empty());
}

TEST_CASE("place_candidates: beside a mount at half a ball diameter, or as near as the ball fits") {
  Panel panel = framed_32_cells();
  panel.mounting_points = {mm(160, 15), mm(640, 8), mm(400, 270), mm(15, 15)};
  const Candidates near = find(Wish::near_mount, panel);
  REQUIRE(near.tiers.size() == 1);
  const auto& points = near.tiers[0];
  REQUIRE(points.size() == 4);
  CHECK(distance(points[0].at, mm(160, 27.5)).si() < 1e-12);
  CHECK(points[0].what == "12.5 mm from the mounting point at 160 x 15 mm");
  CHECK(distance(points[1].at, mm(640, 27.5)).si() < 1e-12);
  CHECK(points[1].what ==
        "19.5 mm from the mounting point at 640 x 8 mm, as near as the ball fits");
  // The mount at the very middle: to the right of it.
  CHECK(distance(points[2].at, mm(412.5, 270)).si() < 1e-12);
  CHECK(distance(points[3].at, mm(27.5, 27.5)).si() < 1e-12);
  // An eyelet on the glass: 12.5 mm towards the middle of the panel.
  Panel flexible = flexible_32_cells();
  flexible.mounting_points = {mm(30, 270)};
  CHECK(distance(find(Wish::near_mount, flexible).tiers[0][0].at, mm(42.5, 270)).si() < 1e-12);
  flexible.mounting_points.clear();
  CHECK(find(Wish::near_mount, flexible).why_not == "the panel file names no mounts");
}

// Once a ball beside a mount close to the frame was sent towards the middle, off the glass, and
// then back onto it farther from the mount than the rule allows: 13.3 mm instead of 12.1 mm.
TEST_CASE("place_candidates: a mount just under the edge of the room") {
  Panel panel = framed_36_cells();
  panel.mounting_points = {mm(12.4, 72.9)};
  const Candidates near = find(Wish::near_mount, panel);
  CHECK(distance(near.tiers.at(0).at(0).at, mm(24.5, 72.9)).si() < 1e-12);
}

TEST_CASE("place_candidates: over the junction box, moved off the frame where that suffices") {
  Panel panel = framed_32_cells();
  CHECK(distance(find(Wish::junction_box, panel).tiers[0][0].at, mm(60, 270)).si() < 1e-12);
  panel.junction_box->at = mm(20, 270);
  const Candidates moved = find(Wish::junction_box, panel);
  REQUIRE(moved.tiers.size() == 1);
  CHECK(distance(moved.tiers[0][0].at, mm(27.5, 270)).si() < 1e-12);
  CHECK_THAT(moved.tiers[0][0].what, Contains("as near its middle"));
  panel.junction_box->width = 10.0_mm;
  CHECK_THAT(find(Wish::junction_box, panel).why_not, Contains("no ball fits"));
  panel.junction_box.reset();
  CHECK(find(Wish::junction_box, panel).why_not == "the panel file names no junction_box");
  CHECK_THROWS_AS(find(Wish::far_from_mounts, panel), BugError);
}

TEST_CASE("place_candidates: discs that touch do not overlap") {
  CHECK_FALSE(overlap({mm(0, 0), 25.0_mm}, {mm(35, 0), 10.0_mm}));
  CHECK(overlap({mm(0, 0), 25.0_mm}, {mm(34.9, 0), 10.0_mm}));
}

// By hand: on a frameless strip of 400 x 100 mm with a mount at each end, the middle is farthest.
TEST_CASE("place_candidates: the far point") {
  Panel panel;
  panel.build = Build::frameless_glass;
  panel.size = Outline{400.0_mm, 100.0_mm, std::nullopt};
  panel.mounting_points = {mm(0, 50), mm(400, 50)};
  const Glass glass = *glass_of(panel);
  const auto at = [&](const std::vector<Disc>& apart, const std::vector<Disc>& earlier) {
    const Candidates found = find_far_point(panel, glass, room(panel), 25.0_mm, apart, earlier);
    REQUIRE(found.tiers.size() == 1);
    return found.tiers[0][0].at;
  };
  // Off the line between the mounts by as much as the ball allows: 12.5 mm, grid of 2 mm.
  CHECK(distance(at({}, {}), mm(200, 14)).si() < 1e-12);
  // A disc there pushes it to the other side; one of an earlier series only keeps its distance.
  CHECK(at({{mm(200, 14), 25.0_mm}}, {}).up.si() > 0.06);
  CHECK(at({}, {{mm(200, 14), 25.0_mm}}).up.si() > 0.06);
  // No room at all.
  CHECK(find_far_point(panel, glass, room(panel), 25.0_mm, {{mm(200, 50), 500.0_mm}}, {})
            .tiers.empty());
  // A frame of 5 mm holds the panel too: no point is farther than 45 mm from it, and the first of
  // those from the left is at 5 + 45 mm on the middle line.
  panel.build = Build::framed_glass;
  panel.frame = 5.0_mm;
  CHECK(distance(at({}, {}), mm(50, 50)).si() < 1e-12);
}
