#include "hailwright/model/panel_geometry.hpp"

#include <algorithm>
#include <cmath>

#include "hailwright/core/contract.hpp"
#include "model/length_rounding.hpp"

namespace hailwright {

namespace {}  // namespace

bool frame_assumed(const Panel& panel) {
  return panel.build == Build::framed_glass && !panel.frame;
}

Length frame_width(const Panel& panel) {
  if (panel.frame) return *panel.frame;
  return frame_assumed(panel) ? usual_frame : Length{};
}

std::optional<Glass> glass_of(const Panel& panel) {
  if (!panel.size) return std::nullopt;
  return room_for_ball({{}, {panel.size->long_side, panel.size->short_side}}, frame_width(panel));
}

std::optional<Glass> room_for_ball(const Glass& glass, Length ball_radius) {
  const Glass room{{glass.low.right + ball_radius, glass.low.up + ball_radius},
                   {glass.high.right - ball_radius, glass.high.up - ball_radius}};
  if (room.low.right > room.high.right || room.low.up > room.high.up) return std::nullopt;
  return room;
}

Length depth_in(const Glass& area, Position point) {
  return std::min({point.right - area.low.right, area.high.right - point.right,
                   point.up - area.low.up, area.high.up - point.up});
}

bool holds(const Glass& area, Position point) {
  return depth_in(area, point).si() >= -rounding_m;
}

Position nearest_in(const Glass& area, Position point) {
  return {std::clamp(point.right, area.low.right, area.high.right),
          std::clamp(point.up, area.low.up, area.high.up)};
}

Position middle_of(const Glass& area) {
  return {(area.low.right + area.high.right) / 2.0, (area.low.up + area.high.up) / 2.0};
}

Length distance(Position a, Position b) {
  return Length::from_si(std::hypot(a.right.si() - b.right.si(), a.up.si() - b.up.si()));
}

std::optional<CellField> cell_field(const Panel& panel) {
  if (!panel.size || !panel.cells) return std::nullopt;
  const CellGrid& grid = *panel.cells;
  if (grid.along < 1 || grid.across < 1) return std::nullopt;
  const auto cell_side = [&](Length side, int cells) {
    return (side - 2.0 * grid.margin - static_cast<double>(cells - 1) * grid.gap) /
           static_cast<double>(cells);
  };
  CellField field;
  field.along = grid.along;
  field.across = grid.across;
  field.low = {grid.margin, grid.margin};
  field.width = cell_side(panel.size->long_side, grid.along);
  field.height = cell_side(panel.size->short_side, grid.across);
  field.gap = grid.gap;
  if (field.width.si() <= 0.0 || field.height.si() <= 0.0) return std::nullopt;
  return field;
}

Glass cell_at(const CellField& field, int column, int row) {
  expects(column >= 0 && column < field.along && row >= 0 && row < field.across, "a cell");
  const Position low{field.low.right + static_cast<double>(column) * (field.width + field.gap),
                     field.low.up + static_cast<double>(row) * (field.height + field.gap)};
  return {low, {low.right + field.width, low.up + field.height}};
}

}  // namespace hailwright
