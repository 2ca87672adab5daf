#include "tables/impact_grade_rows.hpp"

#include <array>
#include <cmath>
#include <numbers>

#include "hailwright/core/contract.hpp"
#include "hailwright/tables/hailstones.hpp"

namespace hailwright {
namespace {

// Exact by definition: international foot, inch and pound (1959), standard gravity (CGPM 1901).
constexpr double metre_per_foot = 0.3048;
constexpr double metre_per_inch = 0.0254;
constexpr double kilogram_per_pound = 0.45359237;
constexpr double standard_gravity_mps2 = 9.80665;

constexpr Length feet(double value) {
  return Length::from_si(value * metre_per_foot);
}
constexpr Length inches(double value) {
  return Length::from_si(value * metre_per_inch);
}
/// The foot-pound: the weight of one pound under standard gravity, moved by one foot.
constexpr Energy ft_lbf(double value) {
  return Energy::from_si(value * metre_per_foot * kilogram_per_pound * standard_gravity_mps2);
}

// What the derived fields of rows rest on: ice as elsewhere in the program; for steel a round
// figure of ours, with which the UL 2218 drops give the UL energies to 2 %.
constexpr double ice_kg_per_m3 = IceDensity::nominal.si();
constexpr double steel_kg_per_m3 = 7800.0;

Mass sphere_mass(double density_kg_per_m3, Length diameter) {
  const double d_m = diameter.si();
  return Mass::from_si(density_kg_per_m3 * std::numbers::pi / 6.0 * d_m * d_m * d_m);
}
Length sphere_diameter(double density_kg_per_m3, Mass mass) {
  return Length::from_si(std::cbrt(6.0 * mass.si() / (std::numbers::pi * density_kg_per_m3)));
}
/// Speed after a fall from rest, without drag.
Speed speed_after_drop(Length height) {
  return Speed::from_si(std::sqrt(2.0 * standard_gravity_mps2 * height.si()));
}
Speed speed_of_energy(Energy energy, Mass mass) {
  return Speed::from_si(std::sqrt(2.0 * energy.si() / mass.si()));
}

/// A row of which the source prints diameter, mass and speed.
struct PrintedRow {
  std::string_view name;
  double diameter_mm;
  double mass_g;
  double speed_mps;
  std::optional<double> energy_J;  ///< as printed
  std::string_view note;
};

template <class Rows>
constexpr bool rising_and_positive(const Rows& rows) {
  double last_mm = 0.0;
  for (const PrintedRow& row : rows) {
    if (!(row.diameter_mm > last_mm) || !(row.mass_g > 0.0) || !(row.speed_mps > 0.0)) return false;
    last_mm = row.diameter_mm;
  }
  return true;
}

Grade printed_grade(std::string_view scheme, const PrintedRow& row, FieldStatus known,
                    std::string_view citation) {
  return {scheme,
          row.name,
          Projectile::ice,
          Length::from_si(row.diameter_mm / 1000.0),
          Mass::from_si(row.mass_g / 1000.0),
          Speed::from_si(row.speed_mps),
          row.energy_J ? std::optional(Energy::from_si(*row.energy_J)) : std::nullopt,
          known,
          known,
          known,
          row.energy_J ? known : FieldStatus::not_printed,
          known == FieldStatus::read ? ReadStatus::read : ReadStatus::from_memory,
          std::nullopt,
          citation,
          row.note};
}

// ---- IEC 61215 -------------------------------------------------------------------------------
constexpr Citation iec_table{
    .id = "iec61215-mqt17",
    .title = "IEC 61215 hail test, table of ice-ball masses and speeds (2005: 10.17; 61215-2:2016 "
             "and 2021: MQT 17)",
    .read_at = "https://desk.synapsun.com/portal/fr/kb/articles/"
               "les-modules-sont-ils-r%C3%A9sistants-%C3%A0-la-gr%C3%AAle ; "
               "https://www.carport-solaire.com/voiture/proteger/risques/grele/resistance/",
    .status = ReadStatus::read,
    .note = "secondary: two French-language sites that agree in every cell; that they are "
            "independent is not proven. The 25, 35, 45, 55 and 75 mm rows have further support"};
constexpr Citation iec_tolerance{
    .id = "iec61215-mqt17-tolerance",
    .title = "IEC 61215 hail test: diameter, mass and speed each within 5 %",
    .read_at = "https://msd.com.ua/eurosun2008-5/normative-requirements-of-impact-resistance-tests",
    .status = ReadStatus::read,
    .note = "secondary, EuroSun 2008. One page prints 25 mm with a tolerance of 1 mm instead; "
            "nothing else supports it"};
constexpr std::array<PrintedRow, 8> iec_rows{{
    {"12.5 mm", 12.5, 0.94, 16.0, std::nullopt, ""},
    {"15 mm", 15.0, 1.63, 17.8, std::nullopt, ""},
    {"25 mm", 25.0, 7.53, 23.0, std::nullopt,
     "the usual grade, and the lowest that a module is tested at"},
    {"35 mm", 35.0, 20.7, 27.2, std::nullopt, ""},
    {"45 mm", 45.0, 43.9, 30.7, std::nullopt, ""},
    {"55 mm", 55.0, 80.2, 33.9, std::nullopt, ""},
    {"65 mm", 65.0, 132.0, 36.7, std::nullopt, ""},
    {"75 mm", 75.0, 203.0, 39.5, std::nullopt, ""},
}};
static_assert(rising_and_positive(iec_rows));

void add_iec(std::vector<Grade>& grades) {
  for (const PrintedRow& row : iec_rows) {
    grades.push_back(printed_grade("IEC 61215", row, FieldStatus::read, iec_table.id));
    grades.back().tolerance = percent(5);  // iec_tolerance
  }
}

// ---- Swiss hail register ---------------------------------------------------------------------
constexpr Citation vkf_table{
    .id = "vkf-hail-register",
    .title = "Swiss hail register (VKF/AEAI), table of diameter, mass, terminal speed and energy",
    .read_at = "https://www.dev.hagelregister.ch/bauherren-architekten/hagelsicher-bauen/"
               "bauteile-im-hageltest.html",
    .status = ReadStatus::read,
    .note = "classes HW1 to HW5; energies printed rounded, mass of the smallest rows too. Balls of "
            "870 kg/m3, some 16 K colder than in the IEC test; for photovoltaic modules the "
            "register does not convert IEC sizes by energy"};
constexpr std::array<PrintedRow, 10> vkf_rows{{
    {"HW1", 10.0, 0.5, 13.8, 0.04, "in older lists only; mass printed rounded to 0.5 g"},
    {"15 mm", 15.0, 1.5, 16.9, 0.22, "row without a class"},
    {"HW2", 20.0, 3.6, 19.5, 0.69, ""},
    {"25 mm", 25.0, 7.1, 21.8, 1.69, "row without a class"},
    {"HW3", 30.0, 12.3, 23.9, 3.5, ""},
    {"HW4", 40.0, 29.2, 27.5, 11.1, ""},
    {"HW5", 50.0, 56.9, 30.8, 27.0, "the highest class"},
    {"60 mm", 60.0, 98.4, 33.7, 56.0, "remark only, no class"},
    {"70 mm", 70.0, 156.2, 36.4, 103.7, "remark only, no class"},
    {"80 mm", 80.0, 233.2, 39.0, 176.9, "row without a class"},
}};
static_assert(rising_and_positive(vkf_rows));

void add_vkf(std::vector<Grade>& grades) {
  for (const PrintedRow& row : vkf_rows)
    grades.push_back(printed_grade("VKF", row, FieldStatus::read, vkf_table.id));
}

// ---- FM 4473 ---------------------------------------------------------------------------------
constexpr Citation fm_4473{
    .id = "fm4473",
    .title = "ANSI/FM 4473 ice-ball classes, as FM Approvals prints them for FM 4475 (September "
             "2022)",
    .read_at = "https://fmapprovals.com/Resources/Insights/4475-updated",
    .status = ReadStatus::read,
    .note = "least energies in ft-lbf, the upper limit 10 % more; a roof scheme. Mass and speed "
            "are derived here for ice of 917 kg/m3. Class 1 was not seen"};
struct EnergyRow {
  std::string_view name;
  Length diameter;
  Energy printed;
};
constexpr std::array<EnergyRow, 4> fm_4473_rows{{
    {"Class 2", inches(1.5), ft_lbf(7.77)},
    {"Class 3", inches(1.75), ft_lbf(14.95)},
    {"Class 4", inches(2.0), ft_lbf(26.81)},
    {"VSH", inches(2.0), ft_lbf(53.0)},
}};

void add_fm_4473(std::vector<Grade>& grades) {
  for (const EnergyRow& row : fm_4473_rows) {
    const Mass mass = sphere_mass(ice_kg_per_m3, row.diameter);
    grades.push_back({"FM 4473", row.name, Projectile::ice, row.diameter, mass,
                      speed_of_energy(row.printed, mass), row.printed, FieldStatus::read,
                      FieldStatus::derived, FieldStatus::derived, FieldStatus::read,
                      ReadStatus::read, std::nullopt, fm_4473.id,
                      "least energy; mass and speed derived for ice of 917 kg/m3"});
  }
}

// ---- steel balls that are dropped: UL 2218, UL 1703, ISO 9806, FM 4470 -------------------------
struct DropRow {
  std::string_view name;
  std::optional<Length> diameter;  ///< absent: derived from the mass
  std::optional<Mass> mass;        ///< absent: derived from the diameter
  Length height;
  std::optional<Energy> printed;
  bool read;  ///< false: the row is from memory
};

/// A drop: the speed is always derived, without drag. `ball` says how the ball is known, `energy`
/// how a printed energy is.
Grade dropped_grade(std::string_view scheme, const DropRow& row, FieldStatus ball,
                    FieldStatus energy, std::string_view citation, std::string_view note) {
  expects(row.mass || row.diameter, "a ball has a mass or a diameter");
  const Mass mass = row.mass ? *row.mass : sphere_mass(steel_kg_per_m3, *row.diameter);
  return {scheme,
          row.name,
          Projectile::steel,
          row.diameter ? *row.diameter : sphere_diameter(steel_kg_per_m3, mass),
          mass,
          speed_after_drop(row.height),
          row.printed,
          row.diameter ? ball : FieldStatus::derived,
          row.mass ? ball : FieldStatus::derived,
          FieldStatus::derived,
          row.printed ? energy : FieldStatus::not_printed,
          row.read ? ReadStatus::read : ReadStatus::from_memory,
          std::nullopt,
          citation,
          note};
}

constexpr Citation ul_2218{
    .id = "ul2218",
    .title = "UL 2218 classes: steel balls dropped on roofing",
    .read_at = "http://h8h.net/news/new-11-283.html (diameters and heights) ; "
               "https://www.ontarioweather.com/haildata.html (the same energies, there for falling "
               "ice)",
    .status = ReadStatus::read,
    .note = "a page of low grade, which wrongly calls the ball a hailstone. That the energies in "
            "ft-lbf are UL figures is from memory. Mass derived for steel of 7800 kg/m3, speed "
            "from the height without drag"};
constexpr std::array<DropRow, 4> ul_2218_rows{{
    {"Class 1", inches(1.25), std::nullopt, feet(12.0), ft_lbf(3.53), true},
    {"Class 2", inches(1.5), std::nullopt, feet(15.0), ft_lbf(7.35), true},
    {"Class 3", inches(1.75), std::nullopt, feet(17.0), ft_lbf(13.56), true},
    {"Class 4", inches(2.0), std::nullopt, feet(20.0), ft_lbf(23.71), true},
}};

constexpr Citation ul_1703{
    .id = "ul1703",
    .title = "UL 1703 and UL 61730 module impact: a steel sphere of 2 in dropped from 51 in",
    .read_at = "https://commercialsolarguy.com/2018/04/13/solar-panel-hail-testing-details-inside/ "
               "(ball, height) ; http://bbs4.angui.org/thread-23739-1-1.html (0.535 kg)",
    .status = ReadStatus::read,
    .note = "secondary. The energy follows from mass and height; 5 ft-lbf is from memory"};
constexpr DropRow ul_1703_row{"2 in",       inches(2.0),  Mass::from_si(0.535),
                              inches(51.0), std::nullopt, true};

constexpr Citation iso_9806_steel{
    .id = "iso9806-steel",
    .title = "EN 12975-2 and ISO 9806, solar collectors: a 150 g steel ball dropped",
    .read_at = "http://energyprofessionalsymposium.com/?p=11681",
    .status = ReadStatus::read,
    .note = "read: 150 g, heights 1.0 m and 2.0 m. The other heights, in steps of 0.2 m, are from "
            "memory. Diameter derived for steel of 7800 kg/m3, speed without drag"};
constexpr Mass iso_ball = Mass::from_si(0.150);
constexpr DropRow iso_drop(std::string_view name, double height_m, bool read) {
  return {name, std::nullopt, iso_ball, Length::from_si(height_m), std::nullopt, read};
}
constexpr std::array<DropRow, 9> iso_9806_steel_rows{{
    iso_drop("0.4 m", 0.4, false),
    iso_drop("0.6 m", 0.6, false),
    iso_drop("0.8 m", 0.8, false),
    iso_drop("1.0 m", 1.0, true),
    iso_drop("1.2 m", 1.2, false),
    iso_drop("1.4 m", 1.4, false),
    iso_drop("1.6 m", 1.6, false),
    iso_drop("1.8 m", 1.8, false),
    iso_drop("2.0 m", 2.0, true),
}};

void add_drops_on_modules(std::vector<Grade>& grades) {
  for (const DropRow& row : ul_2218_rows)
    grades.push_back(
        dropped_grade("UL 2218", row, FieldStatus::read, FieldStatus::from_memory, ul_2218.id,
                      "that UL prints this energy is from memory; mass derived for steel"));
  grades.push_back(dropped_grade("UL 1703", ul_1703_row, FieldStatus::read,
                                 FieldStatus::not_printed, ul_1703.id, ""));
  for (const DropRow& row : iso_9806_steel_rows)
    grades.push_back(dropped_grade(
        "ISO 9806 steel", row, FieldStatus::read, FieldStatus::not_printed, iso_9806_steel.id,
        row.read ? "mass and height read" : "mass read, this height from memory"));
}

// ---- ISO 9806, ice ---------------------------------------------------------------------------
constexpr Citation iso_9806_ice{
    .id = "iso9806-ice",
    .title = "ISO 9806, solar collectors: ice-ball option",
    .read_at = "",
    .status = ReadStatus::from_memory,
    .note = "the same figures as in IEC 61215. 45 mm at 30.7 m/s was read in a page on collector "
            "and photovoltaic standards (http://energyprofessionalsymposium.com/?p=11682)"};
constexpr std::array<PrintedRow, 4> iso_9806_ice_rows{{
    {"15 mm", 15.0, 1.63, 17.8, std::nullopt, ""},
    {"25 mm", 25.0, 7.53, 23.0, std::nullopt, ""},
    {"35 mm", 35.0, 20.7, 27.2, std::nullopt, ""},
    {"45 mm", 45.0, 43.9, 30.7, std::nullopt,
     "size and speed were read elsewhere, not as ISO figures"},
}};
static_assert(rising_and_positive(iso_9806_ice_rows));

// ---- EN 13583 and FM 4470: roof membranes ------------------------------------------------------
constexpr Citation en_13583{
    .id = "en13583",
    .title = "EN 13583, roof membranes: a ball of polyamide 6.6 shot at rising speed",
    .read_at = "https://www.laboratuar.com/en/testler/malzeme-testleri/"
               "en-13583-su-yalitimi-icin-esnek-levhalar---cati-su-yalitimi-icin-bitum-plastik-ve-"
               "kaucuk-levhalar---dolu-dayaniminin-belirlenmesi/ ; "
               "https://skz.de/kunststoff-lexikon/h/hagelschlagpruefung",
    .status = ReadStatus::read,
    .note = "secondary. Ball (40.0 +- 0.5) mm, (38.5 +- 0.5) g; no fixed speed, no classes seen"};

constexpr Citation fm_4470{
    .id = "fm4470",
    .title = "FM 4470, roof membranes: steel balls dropped",
    .read_at = "",
    .status = ReadStatus::from_memory,
    .note = "MH 8 ft-lbf, SH 14 ft-lbf. Whether the FM scheme for rigid modules uses the same was "
            "not verified"};
constexpr std::array<DropRow, 2> fm_4470_rows{{
    {"MH", inches(2.0), Mass::from_si(0.540), inches(81.0), ft_lbf(8.0), false},
    {"SH", inches(1.75), Mass::from_si(0.360), feet(17.0) + inches(9.5), ft_lbf(14.0), false},
}};

void add_collectors_and_membranes(std::vector<Grade>& grades) {
  for (const PrintedRow& row : iso_9806_ice_rows)
    grades.push_back(printed_grade("ISO 9806 ice", row, FieldStatus::from_memory, iso_9806_ice.id));
  grades.push_back({"EN 13583", "polyamide ball", Projectile::polyamide, Length::from_si(0.040),
                    Mass::from_si(0.0385), std::nullopt, std::nullopt, FieldStatus::read,
                    FieldStatus::read, FieldStatus::not_printed, FieldStatus::not_printed,
                    ReadStatus::read, std::nullopt, en_13583.id,
                    "no fixed speed: the speed that damages is the result of the test"});
  for (const DropRow& row : fm_4470_rows)
    grades.push_back(dropped_grade("FM 4470", row, FieldStatus::from_memory,
                                   FieldStatus::from_memory, fm_4470.id, "a membrane scheme"));
}

// ---- ASTM E1038 ------------------------------------------------------------------------------
constexpr Citation astm_e1038{
    .id = "astm-e1038",
    .title = "ASTM E1038-05: terminal speed 4.4 sqrt(d in mm) m/s, added at a right angle to a "
             "wind of 0, 15, 20 or 30 m/s",
    .read_at = "https://msd.com.ua/eurosun2008-5/normative-requirements-of-impact-resistance-tests",
    .status = ReadStatus::read,
    .note = "secondary. The size is free in the method, which sets no limit for the outcome; three "
            "sizes are offered here. Mass derived for ice of 917 kg/m3, speed from the equation"};
struct WindRow {
  std::string_view name;
  double diameter_mm;
  double wind_mps;
};
constexpr std::array<WindRow, 12> astm_e1038_rows{{
    {"25 mm wind 0", 25.0, 0.0},
    {"25 mm wind 15", 25.0, 15.0},
    {"25 mm wind 20", 25.0, 20.0},
    {"25 mm wind 30", 25.0, 30.0},
    {"35 mm wind 0", 35.0, 0.0},
    {"35 mm wind 15", 35.0, 15.0},
    {"35 mm wind 20", 35.0, 20.0},
    {"35 mm wind 30", 35.0, 30.0},
    {"45 mm wind 0", 45.0, 0.0},
    {"45 mm wind 15", 45.0, 15.0},
    {"45 mm wind 20", 45.0, 20.0},
    {"45 mm wind 30", 45.0, 30.0},
}};

void add_astm_e1038(std::vector<Grade>& grades) {
  for (const WindRow& row : astm_e1038_rows) {
    const Length diameter = Length::from_si(row.diameter_mm / 1000.0);
    const double fall_mps = 4.4 * std::sqrt(row.diameter_mm);
    grades.push_back(
        {"ASTM E1038", row.name, Projectile::ice, diameter, sphere_mass(ice_kg_per_m3, diameter),
         Speed::from_si(std::hypot(fall_mps, row.wind_mps)), std::nullopt, FieldStatus::read,
         FieldStatus::derived, FieldStatus::derived, FieldStatus::not_printed, ReadStatus::read,
         std::nullopt, astm_e1038.id, "equation and winds read; the size is the user's choice"});
  }
}

// ---- documents whose numbers were not seen -----------------------------------------------------
constexpr Citation iec_ts_63397{
    .id = "iec-ts-63397",
    .title = "IEC TS 63397:2022, increased hail resistance: contents page",
    .read_at = "https://webmail.asmedoc.com/"
               "?u=%2Fproduct%2Fpublishers%2Fbsi%2Fbsi-pd-iec-ts-633972022-2023%2F",
    .status = ReadStatus::read,
    .note = "title, scope and contents only; the values of its tables were not seen"};
constexpr Citation fm_4478{.id = "fm4478",
                           .title = "FM 4478, rigid photovoltaic modules: scope",
                           .read_at = "globalspec.com, document 14567308",
                           .status = ReadStatus::read,
                           .note = "scope only; its hail figures were not seen"};

constexpr std::array<Citation, 13> sources{
    iec_table,    iec_tolerance, vkf_table, fm_4473,      ul_2218, ul_1703,   iso_9806_steel,
    iso_9806_ice, en_13583,      fm_4470,   iec_ts_63397, fm_4478, astm_e1038};

}  // namespace

std::vector<Grade> impact_grade_rows() {
  std::vector<Grade> rows;
  add_iec(rows);
  add_vkf(rows);
  add_fm_4473(rows);
  add_drops_on_modules(rows);
  add_collectors_and_membranes(rows);
  add_astm_e1038(rows);
  return rows;
}

std::span<const Citation> impact_grade_sources() {
  return sources;
}

}  // namespace hailwright
