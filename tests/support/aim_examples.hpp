#pragma once

#include <string>
#include <vector>

#include "hailwright/model/panel.hpp"
#include "hailwright/model/place_layout.hpp"
#include "hailwright/model/protocol.hpp"

namespace hailwright::testing {

/// Invented panels of three builds, for the layout of places and its picture.
Panel framed_36_cells();    ///< frame not stated, four mounts under it, box at the upper side
Panel framed_32_cells();    ///< frame of 15 mm, mounts deep under it, box at the left side
Panel flexible_32_cells();  ///< no frame, no mounts

/// A point in millimetres.
Position mm(double right, double up);

/// A series at a published grade whose protocol gives the number of its places alone.
SeriesPlan counted_series(const std::string& name, const std::string& grade, int first, int places);
/// A series at the IEC 25 mm grade with a list of places.
SeriesPlan listed_series(const std::string& name, std::vector<Place> places);
/// Eleven places at the IEC 25 mm grade, then five at the 35 mm grade.
Protocol eleven_and_five();

/// The places; a failed check when there are messages.
PlaceLayout placed(const Protocol& protocol, const Panel& panel);

}  // namespace hailwright::testing
