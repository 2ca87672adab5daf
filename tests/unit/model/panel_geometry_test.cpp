#include "hailwright/model/panel_geometry.hpp"

#include "hailwright/core/contract.hpp"
#include "support/aim_examples.hpp"
#include "support/catch.hpp"

using namespace hailwright;
using namespace hailwright::testing;

TEST_CASE("panel_geometry: the frame takes its width off the glass on all sides") {
  Panel panel = framed_32_cells();
  CHECK(frame_width(panel) == 15.0_mm);
  CHECK_FALSE(frame_assumed(panel));
  const auto glass = glass_of(panel);
  REQUIRE(glass);
  CHECK_THAT(glass->low.right.si(), WithinAbs(0.015, 1e-12));
  CHECK_THAT(glass->high.right.si(), WithinAbs(0.785, 1e-12));
  CHECK_THAT(glass->high.up.si(), WithinAbs(0.525, 1e-12));
  panel.frame = 300.0_mm;
  CHECK_FALSE(glass_of(panel));
  panel.size.reset();
  CHECK_FALSE(glass_of(panel));
}

TEST_CASE("panel_geometry: only framed glass has a frame that is taken") {
  Panel panel = framed_36_cells();
  CHECK(frame_assumed(panel));
  CHECK(frame_width(panel) == usual_frame);
  panel.frame = Length{};
  CHECK_FALSE(frame_assumed(panel));
  CHECK(frame_width(panel) == Length{});
  CHECK(frame_width(flexible_32_cells()) == Length{});
  panel.frame.reset();
  panel.build = Build::frameless_glass;
  CHECK(frame_width(panel) == Length{});
}

TEST_CASE("panel_geometry: a ball's room, and what lies in it") {
  const Glass glass{mm(10, 10), mm(110, 60)};
  const auto room = room_for_ball(glass, 12.5_mm);
  REQUIRE(room);
  CHECK(holds(*room, mm(22.5, 22.5)));
  CHECK(holds(*room, mm(97.5, 47.5)));
  CHECK_FALSE(holds(*room, mm(22.4, 30)));
  CHECK_FALSE(room_for_ball(glass, 26.0_mm));
  CHECK(distance(nearest_in(*room, mm(0, 30)), mm(22.5, 30)).si() < 1e-12);
  CHECK(distance(nearest_in(*room, mm(200, 200)), mm(97.5, 47.5)).si() < 1e-12);
  CHECK(distance(nearest_in(*room, mm(50, 30)), mm(50, 30)).si() < 1e-12);
  CHECK(distance(middle_of(glass), mm(60, 35)).si() < 1e-12);
  CHECK_THAT(depth_in(glass, mm(15, 40)).si(), WithinAbs(0.005, 1e-12));
  CHECK_THAT(depth_in(glass, mm(15, 66)).si(), WithinAbs(-0.006, 1e-12));
  CHECK_THAT(distance(mm(0, 0), mm(3, 4)).si(), WithinAbs(0.005, 1e-12));
}

// 800 mm = 28 + 8 w + 7 * 3 + 28 gives w = 90.375 mm; 540 mm = 28 + 4 h + 3 * 3 + 28 gives 118.75
// mm.
TEST_CASE("panel_geometry: cells, gaps and margins add up to the panel") {
  const auto field = cell_field(framed_32_cells());
  REQUIRE(field);
  CHECK_THAT(field->width.si(), WithinAbs(0.090375, 1e-12));
  CHECK_THAT(field->height.si(), WithinAbs(0.11875, 1e-12));
  const Glass first = cell_at(*field, 0, 0);
  CHECK(distance(first.low, mm(28, 28)).si() < 1e-12);
  const Glass last = cell_at(*field, 7, 3);
  CHECK(distance(last.high, mm(772, 512)).si() < 1e-12);
  const Glass second = cell_at(*field, 1, 0);
  CHECK_THAT((second.low.right - first.high.right).si(), WithinAbs(0.003, 1e-12));
  CHECK_THROWS_AS(cell_at(*field, 8, 0), BugError);
  CHECK_THROWS_AS(cell_at(*field, 0, -1), BugError);
}

TEST_CASE("panel_geometry: no cells without size, grid or room") {
  Panel panel = framed_32_cells();
  panel.cells->gap = 200.0_mm;
  CHECK_FALSE(cell_field(panel));
  panel.cells.reset();
  CHECK_FALSE(cell_field(panel));
  panel = framed_32_cells();
  panel.size.reset();
  CHECK_FALSE(cell_field(panel));
  panel = framed_32_cells();
  panel.cells->margin = 270.0_mm;
  CHECK_FALSE(cell_field(panel));
}
