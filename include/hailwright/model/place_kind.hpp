#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace hailwright {

/// The kinds of places that can be found on any panel from its geometry.
enum class PlaceKind {
  corner,           ///< of the glass, close to the frame
  edge,             ///< middle of a side, close to the frame
  cell_edge,        ///< over the edges of cells, near their joints
  near_mount,       ///< close to a mounting point
  far_from_mounts,  ///< far from what holds the panel and from the other places
  junction_box,     ///< on the front over the box on the back
  cell_centre,      ///< over the middle of a cell
  named             ///< the protocol's own name or position
};

/// "corner", "cell edge", ... as a protocol writes it.
std::string_view text(PlaceKind kind);

/// The kind of which a protocol writes the word; nothing for any other, and for `named`.
std::optional<PlaceKind> find_place_kind(std::string_view word);
/// All such words, in the order of the kinds.
std::vector<std::string> place_kind_words();

/// The kind that a place's name asks for: a kind's word, alone or with a number behind it
/// ("corner 2"), since each name stands only once in a protocol.
std::optional<PlaceKind> kind_in_name(std::string_view name);

}  // namespace hailwright
