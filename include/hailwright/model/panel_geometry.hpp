#pragma once

#include <optional>

#include "hailwright/model/panel.hpp"

namespace hailwright {

/// Width taken for the frame of framed glass when the panel file gives none: how far frames of
/// small panels usually reach over the glass, no published figure [ours]. No error rests on it.
inline constexpr Length usual_frame = Length::from_si(0.012);

/// Width of the frame as seen from the front: the panel's, else `usual_frame` for framed glass,
/// else none.
Length frame_width(const Panel& panel);
/// Whether `frame_width` is `usual_frame` because the file says nothing.
bool frame_assumed(const Panel& panel);

/// What a ball's place may not touch, and where the glass is.
struct Glass {
  Position low, high;  ///< corners of the visible glass inside the frame
};

/// The visible glass: the outline less the frame's width. Nothing without a size, or where the
/// frame leaves no glass.
std::optional<Glass> glass_of(const Panel& panel);

/// Where the middle of a ball of this radius may be so that the whole ball is on the glass. Nothing
/// where it does not fit.
std::optional<Glass> room_for_ball(const Glass& glass, Length ball_radius);

/// Whether the point lies in the rectangle or on its edge (to a nanometre: sums are rounded).
bool holds(const Glass& area, Position point);
/// The point of the rectangle nearest to this one.
Position nearest_in(const Glass& area, Position point);
Position middle_of(const Glass& area);
Length distance(Position a, Position b);
/// How far the point lies inside the nearest edge of the rectangle; below zero outside it.
Length depth_in(const Glass& area, Position point);

/// The cells: equal rectangles in rows along the long side, the same gap between all neighbours.
struct CellField {
  int along = 0;   ///< cells of a row
  int across = 0;  ///< rows
  Position low;    ///< lower left corner of the first cell
  Length width, height;
  Length gap;
};

/// Nothing without size and grid, or where margin and gaps leave no room for cells.
std::optional<CellField> cell_field(const Panel& panel);

/// A cell, counted from 0: `column` from the left, `row` from below. Contract: it exists.
Glass cell_at(const CellField& field, int column, int row);

}  // namespace hailwright
