#pragma once

#include <optional>
#include <vector>

#include "hailwright/core/diagnostic.hpp"
#include "hailwright/core/quantity.hpp"
#include "hailwright/core/source.hpp"
#include "input/table_columns.hpp"

namespace hailwright::input {

/// Masses and diameters outside these were not meant [ours]: slips of the pen, not balls.
inline constexpr Limits ball_mass{0.0, 1.0, true, "above 0 g, up to 1 kg"};
inline constexpr Limits ball_diameter{0.005, 0.150, false, "from 5 mm to 150 mm"};

/// Ball speeds [ours]: likewise.
inline constexpr Limits ball_speed{0.0, 100.0, true, "above 0 m/s, up to 100 m/s"};

/// Frames of a ball's flight over the protocol's length: whole or half, above 0.
std::optional<double> read_frames(const Sheet& sheet, const CellRow& row, Diagnostics& notes);

/// The diameters of a row.
std::vector<Length> read_diameters(const Sheet& sheet, const CellRow& row, Diagnostics& notes);

/// Warns when a mass and the mean of the diameters make a sphere that ice cannot be (IceDensity).
void check_density(Mass mean_mass, const std::vector<Length>& diameters, SourceSpan where,
                   Diagnostics& notes);

}  // namespace hailwright::input
