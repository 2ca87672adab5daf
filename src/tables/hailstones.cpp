#include "hailwright/tables/hailstones.hpp"

#include <algorithm>
#include <array>
#include <cmath>

#include "hailwright/core/contract.hpp"

namespace hailwright {
namespace {

constexpr std::array<Citation, 9> stone_sources{{
    {.id = "sphere-terminal-speed",
     .title = "weight equals drag for a sphere: v = sqrt(4 rho g d / (3 Cd rho_air)), with 917 "
              "kg/m3, Cd 0.45 and 0.60, air of 1.225 kg/m3, g 9.80665 m/s2",
     .read_at = "",
     .status = ReadStatus::computed,
     .note = "a derivation; the two drag coefficients, from a smooth sphere to a rough stone, are "
             "common practice"},
    {.id = "laurie-1960",
     .title = "Laurie 1960, as fitted in Heymsfield et al. 2018, Table 3, doi "
              "10.1175/JAS-D-18-0035.1",
     .read_at = "https://github.com/ltelab/disdrodb, disdrodb/fall_velocity/hail.py",
     .status = ReadStatus::read,
     .note = "secondary: the fit was read in code that names the paper; the table of 1960 was not "
             "seen"},
    {.id = "heymsfield-2014",
     .title = "Heymsfield, Giammanco and Wright 2014, doi 10.1002/2014GL062324",
     .read_at = "https://github.com/ltelab/disdrodb, disdrodb/fall_velocity/hail.py",
     .status = ReadStatus::read,
     .note = "secondary: read in code that names the paper; largest diameter of natural stones"},
    {.id = "fehlmann-2020",
     .title = "Fehlmann et al. 2020: 3.74 sqrt(D in mm) m/s",
     .read_at = "https://github.com/ltelab/disdrodb, disdrodb/fall_velocity/hail.py",
     .status = ReadStatus::read,
     .note = "secondary: read in code that names the authors and the year, but no journal or DOI"},
    {.id = "heymsfield-2018-corrected",
     .title = "Heymsfield et al. 2018, doi 10.1175/JAS-D-18-0035.1, as corrected in 2020, doi "
              "10.1175/JAS-D-19-0185.1",
     .read_at = "https://github.com/ltelab/disdrodb, disdrodb/fall_velocity/hail.py",
     .status = ReadStatus::read,
     .note = "secondary: read in code that names both papers. The equation first printed in 2018 "
             "was withdrawn and is not offered, though public code still holds it"},
    {.id = "nws-hail-sizes",
     .title = "US National Weather Service, names of hail sizes, in inches",
     .read_at = "https://studylib.net/doc/8284628",
     .status = ReadStatus::read,
     .note = "secondary: a sheet of one forecast office; a roofing journal and a newspaper agree"},
    {.id = "crc-ice-density",
     .title = "CRC Handbook, density of ice: 0.9167 g/cm3 at 0 degC, 0.9187 at -10, 0.9203 at "
              "-20, 0.9216 at -30",
     .read_at = "zanotowane.pl/1015/2083",
     .status = ReadStatus::read,
     .note = "a copy of the page"},
    {.id = "ice-density-band",
     .title = "a ball of 0.87 to 0.93 g/cm3 can be ice; outside, its mass or its diameter is wrong",
     .read_at = "",
     .status = ReadStatus::ours,
     .note = "the lower end is the density of the Swiss hail register's balls"},
    {.id = "fall-speed-range",
     .title = "the fall-speed fits are offered for stones of 5 to 100 mm",
     .read_at = "",
     .status = ReadStatus::ours,
     .note = "near the ground; at lower air pressure stones fall faster"},
}};

// Inputs of the two computed fits [sphere-terminal-speed]: ISA air at sea level, standard gravity.
constexpr double air_kg_per_m3 = 1.225;
constexpr double gravity_mps2 = 9.80665;

/// Terminal speed of an ice sphere of 1 cm; it grows with the square root of the diameter.
double sphere_factor_mps(double drag_coefficient) {
  constexpr double one_cm_m = 0.01;
  return std::sqrt(4.0 * IceDensity::nominal.si() * gravity_mps2 * one_cm_m /
                   (3.0 * drag_coefficient * air_kg_per_m3));
}

// In inches [nws-hail-sizes].
constexpr Length hail_size(double value) {
  return Length::from_si(value * 0.0254);
}
constexpr std::array<SizeName, 14> names{{
    {hail_size(0.25), "pea"},
    {hail_size(0.50), "marble or mothball"},
    {hail_size(0.75), "dime or penny"},
    {hail_size(0.88), "nickel"},
    {hail_size(1.00), "quarter"},
    {hail_size(1.25), "half dollar"},
    {hail_size(1.50), "walnut or ping-pong ball"},
    {hail_size(1.75), "golf ball"},
    {hail_size(2.00), "hen egg"},
    {hail_size(2.50), "tennis ball"},
    {hail_size(2.75), "baseball"},
    {hail_size(3.00), "teacup"},
    {hail_size(4.00), "grapefruit"},
    {hail_size(4.50), "softball"},
}};

constexpr bool rising(const std::array<SizeName, 14>& rows) {
  for (std::size_t i = 1; i < rows.size(); ++i) {
    if (!(rows[i].diameter > rows[i - 1].diameter)) return false;
  }
  return rows.front().diameter > Length{};
}
static_assert(rising(names));

}  // namespace

std::span<const FallSpeedFit> fall_speed_fits() {
  static const std::array<FallSpeedFit, 6> fits{{
      {"sphere, drag 0.45", "sphere-terminal-speed", ReadStatus::computed, sphere_factor_mps(0.45),
       0.5},
      {"sphere, drag 0.60", "sphere-terminal-speed", ReadStatus::computed, sphere_factor_mps(0.60),
       0.5},
      {"Laurie 1960", "laurie-1960", ReadStatus::read, 13.95, 0.51},
      {"Heymsfield 2014", "heymsfield-2014", ReadStatus::read, 12.28, 0.57},
      // Printed for a diameter in mm: 1 cm is 10 mm.
      {"Fehlmann 2020", "fehlmann-2020", ReadStatus::read, 3.74 * std::sqrt(10.0), 0.5},
      {"Heymsfield 2018, corrected 2020", "heymsfield-2018-corrected", ReadStatus::read, 8.39,
       0.67},
  }};
  return fits;
}

Speed fall_speed(const FallSpeedFit& fit, Length diameter) {
  expects(std::isfinite(diameter.si()) && diameter > Length{}, "a hailstone has a diameter");
  const double diameter_cm = diameter.si() * 100.0;
  return Speed::from_si(fit.factor_mps * std::pow(diameter_cm, fit.power));
}

std::span<const SizeName> size_names() {
  return names;
}

const SizeName& nearest_size_name(Length diameter) {
  expects(std::isfinite(diameter.si()) && diameter > Length{}, "a hailstone has a diameter");
  const auto distance = [diameter](const SizeName& size) {
    return std::abs(std::log((diameter / size.diameter).si()));
  };
  return *std::min_element(names.begin(), names.end(), [&](const SizeName& a, const SizeName& b) {
    return distance(a) < distance(b);
  });
}

std::span<const Citation> hailstone_sources() {
  return stone_sources;
}

}  // namespace hailwright
