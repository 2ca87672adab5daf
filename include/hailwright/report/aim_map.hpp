#pragma once

#include <string>
#include <vector>

#include "hailwright/model/panel.hpp"
#include "hailwright/model/place_layout.hpp"
#include "hailwright/report/document.hpp"

namespace hailwright {

/// The panel to scale with its cells, frame, junction box and mounts, and the places to aim at,
/// each as a disc of its size with its number; series differ by line and shape, not by colour
/// alone. Their distances from the left and the lower edge stand in `places_table`. `id` is the
/// figure's id. The same input gives the same bytes. Contract: the panel has a size, and there are
/// as many names as series.
Figure aim_map(const Panel& panel, const PlaceLayout& layout,
               const std::vector<std::string>& series_names, const std::string& id);

/// The list beside the map: number, name and series of each place, how far right of the left and up
/// from the lower edge of the panel its middle lies, and what it is; for a place without a
/// position, why. Contract: as many names as series.
Table places_table(const PlaceLayout& layout, const std::vector<std::string>& series_names);

}  // namespace hailwright
