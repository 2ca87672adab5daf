#pragma once

#include <optional>
#include <string>
#include <vector>

#include "hailwright/core/diagnostic.hpp"
#include "hailwright/model/panel.hpp"
#include "hailwright/model/panel_geometry.hpp"
#include "hailwright/model/place_kind.hpp"
#include "hailwright/model/protocol.hpp"

namespace hailwright {

/// Radius of a place where the protocol names none: MEASUREMENT M10, the default of
/// docs/defaults.md.
inline constexpr Length usual_place_radius = Length::from_si(0.025);

/// Counts of places that are a set found by geometry; any other count only gives names.
inline constexpr int full_set = 11;
inline constexpr int reduced_set = 5;

/// One place of a panel: a disc that shots aim at.
struct PlacedTarget {
  std::string name;  ///< as the protocol calls it: "1", "corner"
  /// Different for every place of the protocol: a name that is a number is its own, the others take
  /// in their order those from 1 that are left.
  int number = 0;
  PlaceKind kind = PlaceKind::named;
  std::optional<Position> at;  ///< nothing where neither protocol nor geometry gives one
  Length radius;
  /// This place lies where an earlier series aimed: no free one of its kind was left.
  bool repeats_earlier = false;
  std::string what;     ///< where it is, in words: "lower left corner of the glass"
  std::string why_not;  ///< why it has no position; empty when it has one
};

/// All series' places on one panel, in the order of the series.
struct PlaceLayout {
  std::vector<std::vector<PlacedTarget>> series;
};

/// Finds the places of every series on this panel. A count of 11 is the set of eleven places, 5 the
/// reduced set; a place named after a kind ("corner") is found by geometry; one with a position is
/// taken as it stands. A later series takes places that overlap no earlier one as long as there are
/// any. What cannot be found has no position and says why. Pure geometry: the same input gives the
/// same places, and positions found before (`Place::found`) change nothing.
///
/// Messages, at the place: C09 outside the panel; C25 on the stated frame; C26 overlapping another
/// of the same series. A warning, C27, when a ball aimed there reaches over the frame or the edge.
Checked<PlaceLayout> layout_places(const Protocol& protocol, const Panel& panel,
                                   Length default_radius);

/// Gives the places without a position the one that was found for them, and marks them so.
void take_positions(const PlaceLayout& layout, Protocol& protocol);

}  // namespace hailwright
