#include "hailwright/safety/yardsticks.hpp"

#include <array>
#include <numbers>

namespace hailwright {
namespace {

// Exact by definition: international foot, inch, pound and mile (1959), standard gravity.
constexpr double metre_per_foot = 0.3048;
constexpr double metre_per_inch = 0.0254;
constexpr double kilogram_per_pound = 0.45359237;
constexpr double metre_per_mile = 1609.344;
constexpr double standard_gravity_mps2 = 9.80665;

// The steel balls of ANSI Z87.1 are printed by diameter. 7.85 g/cm3 [from memory] gives the 1.05 g
// that one page prints for 6.35 mm.
constexpr double steel_kg_per_m3 = 7850.0;

constexpr Energy foot_pounds(double value) {
  return Energy::from_si(value * metre_per_foot * kilogram_per_pound * standard_gravity_mps2);
}
constexpr Energy moving(double mass_kg, double speed_mps) {
  return Energy::from_si(0.5 * mass_kg * speed_mps * speed_mps);
}
constexpr Energy dropped(double mass_kg, double height_m) {
  return Energy::from_si(mass_kg * standard_gravity_mps2 * height_m);
}
constexpr double steel_ball_kg(double diameter_m) {
  return steel_kg_per_m3 * std::numbers::pi / 6.0 * diameter_m * diameter_m * diameter_m;
}
constexpr double feet_per_second(double value) {
  return value * metre_per_foot;
}
constexpr double miles_per_hour(double value) {
  return value * metre_per_mile / 3600.0;
}

constexpr std::array rows{
    Yardstick{YardstickKind::toy, "rigid toy projectile, older limit", Energy::from_si(0.08),
              "0.08 J", "EN 71-1", ReadStatus::read, "secondary page"},
    Yardstick{YardstickKind::toy, "toy projectile with resilient tip, older limit",
              Energy::from_si(0.5), "0.5 J", "EN 71-1", ReadStatus::read, "secondary page"},
    Yardstick{YardstickKind::law, "lethal barrelled weapon in the United Kingdom, above",
              Energy::from_si(1.0), "more than 1 J at the muzzle", "UK 2017 s125", ReadStatus::read,
              "barrelled weapons only; airsoft has limits of its own"},
    Yardstick{YardstickKind::injury, "hard ball on the chest, some hearts upset",
              moving(0.145, miles_per_hour(25.0)), "0.145 kg ball at 25 mph: 7 % of animals",
              "Link 2003", ReadStatus::computed, "speed read; none at 20 mph, 68 % at 40 mph"},
    Yardstick{YardstickKind::injury, "rigid object, aircraft over people, category 2",
              foot_pounds(11.0), "11 ft-lbf", "14 CFR 107.120", ReadStatus::read,
              "read as quoted; RCC 321 has the same figure, from memory"},
    Yardstick{YardstickKind::injury, "rigid object, aircraft over people, category 3",
              foot_pounds(25.0), "25 ft-lbf", "14 CFR 107.130", ReadStatus::read,
              "RCC 321 has the same figure for fatality, from memory"},
    Yardstick{YardstickKind::injury, "hazardous fragment", foot_pounds(58.0), "58 ft-lbf",
              "DDESB TP-12", ReadStatus::read, "the summary was read"},
    Yardstick{YardstickKind::eyewear, "spectacles, EN 166 S", moving(0.043, 5.1), "43 g at 5.1 m/s",
              "EN 166 S", ReadStatus::computed},
    Yardstick{YardstickKind::eyewear, "spectacles, Z87 basic",
              dropped(steel_ball_kg(0.0254), 50.0 * metre_per_inch),
              "25.4 mm steel ball from 50 in", "ANSI Z87.1", ReadStatus::computed,
              "density of steel from memory"},
    Yardstick{YardstickKind::eyewear, "spectacles, EN 166 F", moving(0.86e-3, 45.0),
              "0.86 g at 45 m/s", "EN 166", ReadStatus::computed},
    Yardstick{YardstickKind::eyewear, "spectacles, Z87+",
              moving(steel_ball_kg(6.35e-3), feet_per_second(150.0)),
              "6.35 mm steel ball at 150 ft/s", "ANSI Z87.1", ReadStatus::computed,
              "density of steel from memory"},
    Yardstick{YardstickKind::eyewear, "goggles, Z87+",
              moving(steel_ball_kg(6.35e-3), feet_per_second(250.0)),
              "6.35 mm steel ball at 250 ft/s", "ANSI Z87.1", ReadStatus::computed,
              "density of steel from memory"},
    Yardstick{YardstickKind::eyewear, "face shield, Z87+",
              moving(steel_ball_kg(6.35e-3), feet_per_second(300.0)),
              "6.35 mm steel ball at 300 ft/s", "ANSI Z87.1", ReadStatus::computed,
              "density of steel from memory"},
    Yardstick{YardstickKind::eyewear, "goggles, EN 166 B", moving(0.86e-3, 120.0),
              "0.86 g at 120 m/s", "EN 166", ReadStatus::computed,
              "that class B is for goggles and up is from memory"},
    Yardstick{YardstickKind::eyewear, "any Z87+, high mass", dropped(0.5, 50.0 * metre_per_inch),
              "500 g, pointed, from 50 in", "ANSI Z87.1", ReadStatus::computed,
              "one page says 130 cm instead of 127 cm"},
    Yardstick{YardstickKind::eyewear, "face shield, EN 166 A", moving(0.86e-3, 190.0),
              "0.86 g at 190 m/s", "EN 166", ReadStatus::computed,
              "that class A is for face shields only is from memory"},
};

constexpr std::size_t eyewear_begin = [] {
  std::size_t i = 0;
  while (rows[i].kind != YardstickKind::eyewear)
    ++i;
  return i;
}();

constexpr bool each_kind_rises() {
  for (std::size_t i = 1; i < rows.size(); ++i) {
    if (rows[i].kind < rows[i - 1].kind) return false;
    if (rows[i].kind == rows[i - 1].kind && !(rows[i - 1].energy < rows[i].energy)) return false;
  }
  return true;
}
static_assert(each_kind_rises());

constexpr std::array sources{
    Citation{.id = "EN 71-1",
             .title = "EN 71-1, limits for projectiles of toys, older edition, in a summary",
             .read_at = "unsafetoys.blogspot.com/2010/11/suction-cups-toy-guns.html",
             .status = ReadStatus::read,
             .note = "secondary; newer editions limit the energy per area"},
    Citation{.id = "UK 2017 s125",
             .title = "Policing and Crime Act 2017, section 125",
             .read_at = "legislation.gov.uk/ukpga/2017/3/section/125",
             .status = ReadStatus::read,
             .note = "one country; elsewhere it varies"},
    Citation{.id = "Link 2003",
             .title = "Link et al., JACC 2003: chest blows with a baseball, 8 to 25 kg swine",
             .read_at = "utsouthwestern.elsevierpure.com",
             .status = ReadStatus::read,
             .note = "speeds read, energies computed"},
    Citation{.id = "14 CFR 107.120",
             .title = "14 CFR 107.120, small aircraft over people, category 2",
             .read_at = "mavicpilots.com, thread 105882",
             .status = ReadStatus::read,
             .note = "read as quoted"},
    Citation{.id = "14 CFR 107.130",
             .title = "14 CFR 107.130, small aircraft over people, category 3",
             .read_at = "faraim.org",
             .status = ReadStatus::read,
             .note = ""},
    Citation{.id = "DDESB TP-12",
             .title = "DDESB TP-12, hazardous fragment, in a summary",
             .read_at = "photonsquared.com/engineering/fragment-and-debris-hazards",
             .status = ReadStatus::read,
             .note = "the summary was read"},
    Citation{.id = "EN 166 S",
             .title = "EN 166, increased robustness",
             .read_at = "bs.spaspecialcommitteesibu.com",
             .status = ReadStatus::read,
             .note = ""},
    Citation{.id = "EN 166",
             .title = "EN 166, impact tests, as printed in BR 192, table 8",
             .read_at = "regelwerke.vbg.de, br192, table 8",
             .status = ReadStatus::read,
             .note = "being replaced by ISO 16321, from memory"},
    Citation{.id = "ANSI Z87.1",
             .title = "ANSI Z87.1, 2003 edition, impact tests",
             .read_at = "workingperson.me; ishn.com/articles/86892",
             .status = ReadStatus::read,
             .note = "drop height of the high-mass test: 127 cm or 130 cm"},
};

}  // namespace

std::span<const Yardstick> yardsticks() {
  return rows;
}

std::span<const Yardstick> eyewear() {
  return std::span<const Yardstick>(rows).subspan(eyewear_begin);
}

std::vector<EyewearAgainstBall> eyewear_against(Energy ball) {
  std::vector<EyewearAgainstBall> all;
  for (const Yardstick& one : eyewear())
    all.push_back({&one, one.energy <= ball});
  return all;
}

const Yardstick* strongest_eyewear_below(Energy ball) {
  const Yardstick* strongest = nullptr;
  for (const Yardstick& one : eyewear())
    if (one.energy <= ball) strongest = &one;
  return strongest;
}

const Yardstick* weakest_eyewear_above(Energy ball) {
  for (const Yardstick& one : eyewear())
    if (one.energy > ball) return &one;
  return nullptr;
}

std::span<const Citation> yardstick_sources() {
  return sources;
}

}  // namespace hailwright
