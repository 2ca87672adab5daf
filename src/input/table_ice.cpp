#include "input/table_ice.hpp"

#include <fmt/format.h>

#include <cmath>
#include <numbers>

#include "hailwright/tables/hailstones.hpp"

namespace hailwright::input {

std::optional<double> read_frames(const Sheet& sheet, const CellRow& row, Diagnostics& notes) {
  constexpr Limits limits{0.0, 100'000.0, true, "above 0, up to 100000"};
  const auto frames = sheet.value(row, "frames", limits, notes);
  if (!frames) return std::nullopt;
  if (std::abs(std::remainder(*frames, 0.5)) > 1e-9) {
    notes.error(
        "T14", sheet.cell(row, "frames")->origin,
        fmt::format("frames are counted whole or half, found {}", sheet.cell(row, "frames")->text),
        {fmt::format("write the nearest half: {}", fixed(std::round(*frames * 2.0) / 2.0, 1))});
    return std::nullopt;
  }
  return frames;
}

std::vector<Length> read_diameters(const Sheet& sheet, const CellRow& row, Diagnostics& notes) {
  std::vector<Length> out;
  for (const double metres : sheet.values(row, "diameter", ball_diameter, notes))
    out.push_back(Length::from_si(metres));
  return out;
}

void check_density(Mass mean_mass, const std::vector<Length>& diameters, SourceSpan where,
                   Diagnostics& notes) {
  if (diameters.empty()) return;
  Length sum;
  for (const Length d : diameters)
    sum += d;
  const Length mean = sum / static_cast<double>(diameters.size());
  const Density implied = mean_mass / (std::numbers::pi / 6.0 * (mean * mean * mean));
  if (implied >= IceDensity::low && implied <= IceDensity::high) return;
  notes.warning(
      "T22", where,
      fmt::format("{} and {} make a density of {} g/cm3; ice has {} to {}: the mass or the "
                  "diameter is wrong",
                  in_unit(mean_mass.si(), "g", 3), in_unit(mean.si(), "mm", 2),
                  fixed(implied.si() / 1000.0, 3), fixed(IceDensity::low.si() / 1000.0, 2),
                  fixed(IceDensity::high.si() / 1000.0, 2)),
      {"weigh and measure again; a ball with air or a crack in it is not used"});
}

}  // namespace hailwright::input
