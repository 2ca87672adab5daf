// The closed unit table of core/quantity_text.hpp and what is said about a unit that is not in it.
#include "hailwright/core/quantity_text.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <numbers>

#include "core/quoted.hpp"
#include "hailwright/core/contract.hpp"
#include "hailwright/core/diagnostic.hpp"
#include "hailwright/core/source.hpp"

namespace hailwright {

namespace {

// Definitions, all exact. Read in the definitions file of GNU units 2.22 (package `units` of
// Debian 12), which quotes the international yard and pound of 1959; every row is run against that
// program in tests/reference/gnu_units_test.cpp.
constexpr double inch_m = 0.0254;             // 25.4 mm
constexpr double foot_m = 12.0 * inch_m;      // 12 inches
constexpr double mile_m = 1609.344;           // 5280 feet
constexpr double pound_kg = 0.45359237;       // international pound, 1959
constexpr double ounce_kg = pound_kg / 16.0;  // avoirdupois
constexpr double gravity_mps2 = 9.80665;      // standard acceleration of gravity
constexpr double pound_force_N = pound_kg * gravity_mps2;
constexpr double hour_s = 3600.0;
constexpr double bar_Pa = 1e5;
constexpr double litre_m3 = 1e-3;                        // 1 dm3
constexpr double degF_K = 5.0 / 9.0;                     // size of a degree Fahrenheit
constexpr double zero_degC_K = 273.15;                   // 0 degC
constexpr double zero_degF_K = 459.67 * degF_K;          // 0 degF; 32 degF is 273.15 K
constexpr double degree_rad = std::numbers::pi / 180.0;  // 1/360 of a turn

/// Other ways in which people write a unit of the table. They are not read, only answered.
struct Slip {
  std::string_view written;  ///< lower case, without blanks
  std::string_view symbol;
};

constexpr std::array slips{
    Slip{"inch", "in"},
    Slip{"inches", "in"},
    Slip{"\"", "in"},
    Slip{"″", "in"},
    Slip{"'", "ft"},
    Slip{"′", "ft"},
    Slip{"foot", "ft"},
    Slip{"feet", "ft"},
    Slip{"meter", "m"},
    Slip{"meters", "m"},
    Slip{"metre", "m"},
    Slip{"metres", "m"},
    Slip{"litre", "l"},
    Slip{"litres", "l"},
    Slip{"liter", "l"},
    Slip{"liters", "l"},
    Slip{"millilitre", "ml"},
    Slip{"milliliter", "ml"},
    Slip{"cc", "cm3"},
    Slip{"ccm", "cm3"},
    Slip{"cm^3", "cm3"},
    Slip{"m^3", "m3"},
    Slip{"gram", "g"},
    Slip{"grams", "g"},
    Slip{"gr", "g"},
    Slip{"lbs", "lb"},
    Slip{"pound", "lb"},
    Slip{"pounds", "lb"},
    Slip{"ounce", "oz"},
    Slip{"ounces", "oz"},
    Slip{"kph", "km/h"},
    Slip{"kmh", "km/h"},
    Slip{"kmph", "km/h"},
    Slip{"km/hr", "km/h"},
    Slip{"mps", "m/s"},
    Slip{"m/sec", "m/s"},
    Slip{"mi/h", "mph"},
    Slip{"miles/h", "mph"},
    Slip{"fps", "ft/s"},
    Slip{"ft/sec", "ft/s"},
    Slip{"joule", "J"},
    Slip{"joules", "J"},
    Slip{"ft-lb", "ft-lbf"},
    Slip{"ft-lbs", "ft-lbf"},
    Slip{"ftlb", "ft-lbf"},
    Slip{"ftlbs", "ft-lbf"},
    Slip{"ftlbf", "ft-lbf"},
    Slip{"ft·lbf", "ft-lbf"},
    Slip{"ft·lb", "ft-lbf"},
    Slip{"ft*lbf", "ft-lbf"},
    Slip{"foot-pound", "ft-lbf"},
    Slip{"foot-pounds", "ft-lbf"},
    Slip{"watt", "W"},
    Slip{"watts", "W"},
    Slip{"volt", "V"},
    Slip{"volts", "V"},
    Slip{"amp", "A"},
    Slip{"amps", "A"},
    Slip{"ampere", "A"},
    Slip{"amperes", "A"},
    Slip{"ohms", "ohm"},
    Slip{"w/m^2", "W/m2"},
    Slip{"w/sqm", "W/m2"},
    Slip{"wm-2", "W/m2"},
    Slip{"c", "degC"},
    Slip{"celsius", "degC"},
    Slip{"ºc", "degC"},
    Slip{"f", "degF"},
    Slip{"fahrenheit", "degF"},
    Slip{"ºf", "degF"},
    Slip{"kelvin", "K"},
    Slip{"degk", "K"},
    Slip{"°k", "K"},
    Slip{"percent", "%"},
    Slip{"pct", "%"},
    Slip{"％", "%"},
    Slip{"%/c", "%/K"},
    Slip{"percent/k", "%/K"},
    Slip{"µs", "us"},
    Slip{"μs", "us"},
    Slip{"usec", "us"},
    Slip{"msec", "ms"},
    Slip{"sec", "s"},
    Slip{"secs", "s"},
    Slip{"second", "s"},
    Slip{"seconds", "s"},
    Slip{"mins", "min"},
    Slip{"minute", "min"},
    Slip{"minutes", "min"},
    Slip{"hr", "h"},
    Slip{"hrs", "h"},
    Slip{"hour", "h"},
    Slip{"hours", "h"},
    Slip{"°", "deg"},
    Slip{"degree", "deg"},
    Slip{"degrees", "deg"},
    Slip{"hz", "fps"},
    Slip{"frames/s", "fps"},
    Slip{"g/cc", "g/cm3"},
    Slip{"g/ml", "g/cm3"},
    Slip{"g/cm^3", "g/cm3"},
    Slip{"kg/m^3", "kg/m3"},
};

/// A word without blanks and with ASCII letters in lower case.
std::string plain(std::string_view word) {
  std::string out;
  for (const char c : word) {
    if (c == ' ' || c == '\t') continue;
    out += c >= 'A' && c <= 'Z' ? static_cast<char>(c - 'A' + 'a') : c;
  }
  return out;
}

bool is_ascii(std::string_view text) {
  return std::all_of(text.begin(), text.end(),
                     [](char c) { return static_cast<unsigned char>(c) < 0x80U; });
}

/// "units of a speed: m/s, km/h, mph, ft/s". Every unit has a spelling in ASCII; only those are
/// shown.
std::string unit_list(Measure measure) {
  std::vector<std::string_view> symbols;
  for (const Unit& unit : units()) {
    if (unit.measure == measure && is_ascii(unit.symbol)) symbols.push_back(unit.symbol);
  }
  return fmt::format("units of {}: {}", name(measure), fmt::join(symbols, ", "));
}

std::vector<std::string> symbols_of(Measure measure) {
  std::vector<std::string> symbols;
  for (const Unit& unit : units()) {
    if (unit.measure == measure) symbols.emplace_back(unit.symbol);
  }
  return symbols;
}

/// "W" for "MW" where a power is due. The table has no other prefixes than those of its rows, and
/// saying "did you mean W" would leave the number a million times wrong.
const Unit* unit_behind_prefix(std::string_view word, Measure measure) {
  constexpr std::array<std::string_view, 11> prefixes{"n", "u", "µ", "μ", "m", "c",
                                                      "d", "h", "k", "M", "G"};
  constexpr std::array<std::string_view, 15> bases{"m",   "g", "s",  "J",   "Wh",  "W", "V", "A",
                                                   "ohm", "Ω", "Pa", "bar", "m/s", "l", "m3"};
  for (const std::string_view prefix : prefixes) {
    if (!word.starts_with(prefix)) continue;
    const std::string_view rest = word.substr(prefix.size());
    if (std::find(bases.begin(), bases.end(), rest) == bases.end()) continue;
    if (const Unit* unit = find_unit(rest, measure)) return unit;
  }
  return nullptr;
}

/// The unit of this measure that was surely meant: the same but for case and blanks, or a known
/// other way of writing it.
std::optional<std::string_view> surely_meant(std::string_view word, Measure measure) {
  const std::string key = plain(word);
  for (const Unit& unit : units()) {
    if (unit.measure == measure && plain(unit.symbol) == key) return unit.symbol;
  }
  for (const Slip& slip : slips) {
    if (slip.written == key && find_unit(slip.symbol, measure) != nullptr) return slip.symbol;
  }
  return std::nullopt;
}

TextProblem unit_problem(std::string_view word, Measure measure) {
  TextProblem problem{"U04", 0, count_characters(word), "", {}};
  const std::optional<std::string_view> meant = surely_meant(word, measure);
  if (meant) problem.hints.push_back(fmt::format("write {}", *meant));

  const auto same = std::find_if(units().begin(), units().end(),
                                 [&](const Unit& unit) { return unit.symbol == word; });
  const std::string_view first_word = word.substr(0, word.find_first_of(" \t"));
  if (same != units().end()) {
    problem.code = "U03";
    problem.message =
        fmt::format("{} is {}, {} was expected", word, name(same->measure), name(measure));
  } else if (!meant && first_word.size() < word.size() &&
             find_unit(first_word, measure) != nullptr) {
    problem.code = "U13";
    problem.message = fmt::format("found {} after the unit {}",
                                  detail::quoted(word.substr(first_word.size() + 1)), first_word);
    problem.hints.push_back(fmt::format("write {}", first_word));
    problem.hints.emplace_back("one number and one unit, nothing after them");
    return problem;
  } else {
    problem.message =
        fmt::format("unknown unit {}, {} was expected", detail::quoted(word), name(measure));
    if (const Unit* base = meant ? nullptr : unit_behind_prefix(word, measure)) {
      problem.hints.push_back(
          fmt::format("give the amount in {}: the prefix is not read", base->symbol));
    } else if (const auto near = meant ? std::nullopt : nearest_word(word, symbols_of(measure))) {
      problem.hints.push_back(fmt::format("did you mean {}?", *near));
    }
  }
  problem.hints.push_back(unit_list(measure));
  return problem;
}

/// 1000 for a factor of 0.001: dividing by it rounds once, multiplying by 0.001 twice.
std::optional<double> whole_divisor(double factor) {
  if (factor >= 1.0) return std::nullopt;
  const double divisor = 1.0 / factor;
  if (divisor != std::round(divisor)) return std::nullopt;
  return divisor;
}

}  // namespace

std::string_view name(Measure measure) {
  switch (measure) {
  case Measure::length:
    return "a length";
  case Measure::volume:
    return "a volume";
  case Measure::mass:
    return "a mass";
  case Measure::density:
    return "a density";
  case Measure::time:
    return "a time";
  case Measure::frame_rate:
    return "a frame rate";
  case Measure::speed:
    return "a speed";
  case Measure::energy:
    return "an energy";
  case Measure::power:
    return "a power";
  case Measure::irradiance:
    return "an irradiance";
  case Measure::pressure:
    return "a pressure";
  case Measure::force:
    return "a force";
  case Measure::voltage:
    return "a voltage";
  case Measure::current:
    return "a current";
  case Measure::resistance:
    return "a resistance";
  case Measure::temperature:
    return "a temperature";
  case Measure::temperature_difference:
    return "a temperature difference";
  case Measure::temperature_coefficient:
    return "a temperature coefficient";
  case Measure::ratio:
    return "a percentage";
  case Measure::angle:
    return "an angle";
  }
  fail_contract("unknown measure");
}

const std::vector<Unit>& units() {
  static const std::vector<Unit> table{
      {"mm", Measure::length, 0.001},
      {"cm", Measure::length, 0.01},
      {"m", Measure::length, 1.0},
      {"in", Measure::length, inch_m},
      {"ft", Measure::length, foot_m},
      {"l", Measure::volume, litre_m3},
      {"ml", Measure::volume, 1e-6},
      {"cm3", Measure::volume, 1e-6},
      {"cm³", Measure::volume, 1e-6},
      {"m3", Measure::volume, 1.0},
      {"m³", Measure::volume, 1.0},
      {"g", Measure::mass, 0.001},
      {"kg", Measure::mass, 1.0},
      {"oz", Measure::mass, ounce_kg},
      {"lb", Measure::mass, pound_kg},
      {"g/cm3", Measure::density, 1000.0},
      {"g/cm³", Measure::density, 1000.0},
      {"kg/m3", Measure::density, 1.0},
      {"kg/m³", Measure::density, 1.0},
      {"us", Measure::time, 1e-6},
      {"ms", Measure::time, 0.001},
      {"s", Measure::time, 1.0},
      {"min", Measure::time, 60.0},
      {"h", Measure::time, hour_s},
      {"fps", Measure::frame_rate, 1.0},
      {"m/s", Measure::speed, 1.0},
      {"km/h", Measure::speed, 1000.0 / hour_s},
      {"mph", Measure::speed, mile_m / hour_s},
      {"ft/s", Measure::speed, foot_m},
      {"N", Measure::force, 1.0},
      {"J", Measure::energy, 1.0},
      {"ft-lbf", Measure::energy, foot_m * pound_force_N},
      {"Wh", Measure::energy, hour_s},
      {"kWh", Measure::energy, 1000.0 * hour_s},
      {"W", Measure::power, 1.0},
      {"kW", Measure::power, 1000.0},
      {"W/m2", Measure::irradiance, 1.0},
      {"W/m²", Measure::irradiance, 1.0},
      {"Pa", Measure::pressure, 1.0},
      {"kPa", Measure::pressure, 1000.0},
      {"psi", Measure::pressure, pound_force_N / (inch_m * inch_m)},
      {"bar", Measure::pressure, bar_Pa},
      {"V", Measure::voltage, 1.0},
      {"mV", Measure::voltage, 0.001},
      {"A", Measure::current, 1.0},
      {"mA", Measure::current, 0.001},
      {"ohm", Measure::resistance, 1.0},
      {"Ω", Measure::resistance, 1.0},       // Greek omega, U+03A9
      {"\u2126", Measure::resistance, 1.0},  // ohm sign, which Unicode equates with U+03A9
      {"degC", Measure::temperature, 1.0, zero_degC_K},
      {"°C", Measure::temperature, 1.0, zero_degC_K},
      {"degF", Measure::temperature, degF_K, zero_degF_K},
      {"°F", Measure::temperature, degF_K, zero_degF_K},
      {"K", Measure::temperature, 1.0},
      {"K", Measure::temperature_difference, 1.0},
      {"degC", Measure::temperature_difference, 1.0},
      {"°C", Measure::temperature_difference, 1.0},
      {"degF", Measure::temperature_difference, degF_K},
      {"°F", Measure::temperature_difference, degF_K},
      {"%/K", Measure::temperature_coefficient, 0.01},
      {"%/degC", Measure::temperature_coefficient, 0.01},
      {"%/°C", Measure::temperature_coefficient, 0.01},
      {"%", Measure::ratio, 0.01},
      {"deg", Measure::angle, degree_rad},
  };
  return table;
}

const Unit* find_unit(std::string_view symbol, Measure measure) {
  const auto found = std::find_if(units().begin(), units().end(), [&](const Unit& unit) {
    return unit.measure == measure && unit.symbol == symbol;
  });
  return found == units().end() ? nullptr : &*found;
}

double to_si(double number, const Unit& unit) {
  const std::optional<double> divisor = whole_divisor(unit.factor);
  const double scaled = divisor ? number / *divisor : number * unit.factor;
  return scaled + unit.offset;  // also turns -0.0 into 0.0
}

double number_in(double si, const Unit& unit) {
  const std::optional<double> divisor = whole_divisor(unit.factor);
  const double shifted = si - unit.offset;
  return (divisor ? shifted * *divisor : shifted / unit.factor) + 0.0;
}

TextResult<Unit> read_unit(std::string_view text, Measure measure) {
  const std::size_t begin = text.find_first_not_of(" \t");
  if (begin == std::string_view::npos) {
    return {std::nullopt, TextProblem{"U02",
                                      0,
                                      count_characters(text),
                                      fmt::format("{} needs a unit", name(measure)),
                                      {unit_list(measure)}}};
  }
  const std::string_view word = text.substr(begin, text.find_last_not_of(" \t") + 1 - begin);
  if (const Unit* unit = find_unit(word, measure)) return {*unit, std::nullopt};
  TextProblem problem = unit_problem(word, measure);
  problem.offset = begin;
  return {std::nullopt, std::move(problem)};
}

}  // namespace hailwright
