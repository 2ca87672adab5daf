#pragma once

#include <string>
#include <vector>

#include "hailwright/model/panel.hpp"
#include "hailwright/model/panel_geometry.hpp"

namespace hailwright {

/// What a place looks for. Cell edges are of two sorts, since the set of eleven asks for both.
enum class Wish {
  corner,
  edge,
  cell_joint,  ///< between two cells of a row, where ribbons join them
  row_edge,    ///< between two rows of cells
  near_mount,
  far_from_mounts,
  junction_box,
  cell_centre
};

/// A point to aim at, and where it is in words.
struct Candidate {
  Position at;
  std::string what;
};

/// All points that would do. Earlier tiers are taken first; those of one tier are as good as each
/// other. None: the panel has no such place, and `why_not` says why.
struct Candidates {
  std::vector<std::vector<Candidate>> tiers;
  std::string why_not;
};

/// The points for any wish but `far_from_mounts`, which depends on the other places. The whole ball
/// lies on the glass at each of them. `room` is `room_for_ball` of the panel's glass.
Candidates find_candidates(Wish wish, const Panel& panel, const Glass& room, Length ball_radius);

/// A disc that is already aimed at.
struct Disc {
  Position at;
  Length radius;
};

/// Whether two discs share more than a point of their rims.
bool overlap(const Disc& a, const Disc& b);

/// The point on a grid of whole millimetres that overlaps none of `apart` and lies farthest from
/// the mounting points, from the frame (from the edge where no mount is named: then nothing tells
/// what holds the panel), and from all of `apart` and `earlier`. No tier: no room is left.
Candidates find_far_point(const Panel& panel, const Glass& glass, const Glass& room, Length radius,
                          const std::vector<Disc>& apart, const std::vector<Disc>& earlier);

}  // namespace hailwright
