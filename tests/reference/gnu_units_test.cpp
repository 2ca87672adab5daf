// Our unit table against the program GNU units (package `units` of Debian 12, version 2.22, run
// here: its answers are read from the program itself, not typed in).

#include <sys/wait.h>

#include <cstdio>
#include <cstdlib>
#include <map>
#include <string>
#include <string_view>

#include "hailwright/core/quantity_text.hpp"
#include "support/catch.hpp"

using namespace hailwright;

namespace {

struct Answer {
  int status = -1;
  std::string text;
};

/// Runs `units` on one conversion. The expressions come from this file alone.
Answer ask_units(const std::string& have, const std::string& want) {
  const std::string command =
      "LC_ALL=C units -1 --terse -o %.15g -- '" + have + "' '" + want + "' 2>/dev/null";
  Answer answer;
  std::FILE* pipe = ::popen(command.c_str(), "r");
  REQUIRE(pipe != nullptr);
  char buffer[256];
  while (std::fgets(buffer, sizeof buffer, pipe) != nullptr)
    answer.text += buffer;
  const int raw = ::pclose(pipe);
  answer.status = WIFEXITED(raw) ? WEXITSTATUS(raw) : -1;
  return answer;
}

double units_says(const std::string& have, const std::string& want) {
  const Answer answer = ask_units(have, want);
  CAPTURE(have, want, answer.text, answer.status);
  REQUIRE(answer.status == 0);
  std::size_t used = 0;
  const double value = std::stod(answer.text, &used);
  REQUIRE(answer.text.substr(used) == "\n");  // a number and nothing else: the units agree
  return value;
}

void require_program() {
  if (ask_units("m", "m").status != 0) {
    FAIL("the program `units` is missing: install the Debian package `units`");
  }
}

/// The SI unit of a measure, in the spelling of GNU units.
std::string si_unit(Measure measure) {
  switch (measure) {
  case Measure::length:
    return "meter";
  case Measure::volume:
    return "meter^3";
  case Measure::mass:
    return "kilogram";
  case Measure::density:
    return "kilogram/meter^3";
  case Measure::time:
    return "second";
  case Measure::frame_rate:
    return "1/second";
  case Measure::speed:
    return "meter/second";
  case Measure::energy:
    return "kilogram meter^2/second^2";
  case Measure::power:
    return "kilogram meter^2/second^3";
  case Measure::irradiance:
    return "kilogram/second^3";
  case Measure::pressure:
    return "kilogram/meter second^2";
  case Measure::force:
    return "kilogram meter/second^2";
  case Measure::voltage:
    return "kilogram meter^2/second^3 ampere";
  case Measure::current:
    return "ampere";
  case Measure::resistance:
    return "kilogram meter^2/second^3 ampere^2";
  case Measure::temperature:
  case Measure::temperature_difference:
    return "kelvin";
  case Measure::temperature_coefficient:
    return "1/kelvin";
  case Measure::ratio:
    return "1";
  case Measure::angle:
    return "radian";
  }
  FAIL("a measure without an SI unit");
  return "";
}

/// Our spelling in that of GNU units. There `h` is the Planck constant and `fps` feet per second;
/// `ft-lbf` would be a subtraction; degC and degF alone are temperature differences.
std::string gnu_spelling(std::string_view symbol) {
  static const std::map<std::string_view, std::string> other{
      {"ft-lbf", "ft lbf"}, {"km/h", "km/hour"}, {"h", "hour"},       {"fps", "1/second"},
      {"W/m2", "W/m^2"},    {"W/m²", "W/m^2"},   {"g/cm3", "g/cm^3"}, {"g/cm³", "g/cm^3"},
      {"kg/m3", "kg/m^3"},  {"kg/m³", "kg/m^3"}, {"Ω", "ohm"},        {"\u2126", "ohm"},
      {"cm3", "cm^3"},      {"cm³", "cm^3"},     {"m3", "m^3"},       {"m³", "m^3"},
      {"°C", "degC"},       {"°F", "degF"},      {"%/°C", "%/degC"},  {"deg", "degree"},
  };
  const auto found = other.find(symbol);
  return found == other.end() ? std::string(symbol) : found->second;
}

// GNU units prints 15 significant digits here: half a unit of the last one is at most 5e-15 of the
// value; three roundings of a double on our side are 3.4e-16.
constexpr double printed_digits = 6e-15;

}  // namespace

TEST_CASE("GNU units: every unit of the table but temperature points") {
  require_program();
  int asked = 0;
  for (const Unit& unit : units()) {
    if (unit.measure == Measure::temperature) continue;
    CAPTURE(unit.symbol, name(unit.measure));
    const double expected = units_says(gnu_spelling(unit.symbol), si_unit(unit.measure));
    CHECK_THAT(unit.factor, WithinRel(expected, printed_digits));
    const auto read = read_amount("1 " + std::string(unit.symbol), unit.measure);
    REQUIRE(read.value.has_value());
    CHECK_THAT(read.value->si, WithinRel(expected, printed_digits));
    CHECK(unit.offset == 0.0);
    ++asked;
  }
  CHECK(asked > 40);
}

TEST_CASE("GNU units: amounts as a reviewer writes them") {
  require_program();
  struct Case {
    std::string_view ours;
    std::string gnu;
    Measure measure;
  };
  const Case example = GENERATE(values<Case>({
      {"62 mph", "62 mph", Measure::speed},
      {"84.5 ft/s", "84.5 ft/s", Measure::speed},
      {"1.75 in", "1.75 in", Measure::length},
      {"26.81 ft-lbf", "26.81 ft lbf", Measure::energy},
      {"0.917 g/cm3", "0.917 g/cm^3", Measure::density},
      {"58 psi", "58 psi", Measure::pressure},
      {"2.5 l", "2.5 liter", Measure::volume},
      {"750 ml", "750 milliliter", Measure::volume},
      {"7.53 g", "7.53 g", Measure::mass},
      {"2.65 oz", "2.65 oz", Measure::mass},
      {"-0.35 %/K", "-0.35 %/K", Measure::temperature_coefficient},
      {"-30 deg", "-30 degree", Measure::angle},
      {"1e-300 mm", "1e-300 mm", Measure::length},
      {"1.7e300 Wh", "1.7e300 W hour", Measure::energy},
  }));
  CAPTURE(example.ours);
  const auto read = read_amount(example.ours, example.measure);
  REQUIRE(read.value.has_value());
  CHECK_THAT(read.value->si,
             WithinRel(units_says(example.gnu, si_unit(example.measure)), printed_digits));
}

TEST_CASE("GNU units: temperature points on both scales") {
  require_program();
  const std::string number =
      GENERATE(as<std::string>{}, "-459.67", "-40", "-18", "0", "25", "32", "104", "98.6", "212");
  CAPTURE(number);
  // -459.67 degF is absolute zero, where only an absolute tolerance means anything; 15 printed
  // digits of some hundred kelvin are 5e-13, and so is one bit of the double.
  const double tolerance = 1e-12;
  const auto fahrenheit = read_amount(number + " degF", Measure::temperature);
  REQUIRE(fahrenheit.value.has_value());
  CHECK_THAT(fahrenheit.value->si,
             WithinAbs(units_says("tempF(" + number + ")", "kelvin"), tolerance));
  if (number != "-459.67") {  // below absolute zero on this scale, and GNU units refuses it
    const auto celsius = read_amount(number + " degC", Measure::temperature);
    REQUIRE(celsius.value.has_value());
    CHECK_THAT(celsius.value->si,
               WithinAbs(units_says("tempC(" + number + ")", "kelvin"), tolerance));
  }
}

TEST_CASE("GNU units: the program is asked in earnest") {
  require_program();
  // A wrong unit and a wrong dimension must not look like an answer.
  CHECK(ask_units("kilogram", "meter").status != 0);
  CHECK(ask_units("no_such_unit_at_all", "meter").status != 0);
  CHECK_THAT(units_says("mile", "meter"), WithinRel(1609.344, 1e-15));
}
