#include <cmath>
#include <fstream>
#include <set>
#include <string>
#include <string_view>
#include <utility>

#include "hailwright/core/contract.hpp"
#include "hailwright/core/quantity_text.hpp"
#include "support/catch.hpp"

using namespace hailwright;

namespace {

constexpr double exactly_scaled = 4e-16;  // two roundings of a double

}  // namespace

TEST_CASE("units: the table is sound") {
  std::set<std::pair<std::string_view, Measure>> seen;
  for (const Unit& unit : units()) {
    CAPTURE(unit.symbol);
    CHECK(unit.factor > 0.0);
    CHECK((unit.offset == 0.0 || unit.measure == Measure::temperature));
    CHECK(seen.insert({unit.symbol, unit.measure}).second);
    CHECK(find_unit(unit.symbol, unit.measure) == &unit);
  }
  // Two spellings that differ only in case would make "write X" a guess.
  std::set<std::pair<std::string, Measure>> folded;
  for (const Unit& unit : units()) {
    CAPTURE(unit.symbol);
    std::string lower(unit.symbol);
    for (char& c : lower) {
      if (c >= 'A' && c <= 'Z') c = static_cast<char>(c - 'A' + 'a');
    }
    CHECK(folded.insert({lower, unit.measure}).second);
    if (unit.offset == 0.0) {
      CHECK_FALSE(std::signbit(to_si(-0.0, unit)));
      CHECK_FALSE(std::signbit(number_in(-0.0, unit)));
    }
  }
  CHECK(find_unit("mm", Measure::mass) == nullptr);
  CHECK(find_unit("MM", Measure::length) == nullptr);
  CHECK(find_unit("", Measure::length) == nullptr);
  CHECK_THROWS_AS(name(static_cast<Measure>(99)), BugError);
}

TEST_CASE("units: factors by their definitions") {
  // Typed in a second time: international inch and pound (1959) and standard gravity, all exact;
  // from memory here, and read from GNU units in tests/reference/gnu_units_test.cpp.
  CHECK(find_unit("in", Measure::length)->factor == 0.0254);
  CHECK_THAT(find_unit("ft", Measure::length)->factor, WithinRel(0.3048, exactly_scaled));
  CHECK_THAT(find_unit("mph", Measure::speed)->factor, WithinRel(0.44704, exactly_scaled));
  CHECK(find_unit("lb", Measure::mass)->factor == 0.45359237);
  CHECK_THAT(find_unit("oz", Measure::mass)->factor, WithinRel(0.028349523125, exactly_scaled));
  CHECK_THAT(find_unit("ft-lbf", Measure::energy)->factor,
             WithinRel(0.3048 * 0.45359237 * 9.80665, 1e-15));
  // SI Brochure, 9th edition, tables 7 and 8, from memory: kilo, milli, and the hour of 3600 s.
  CHECK(find_unit("N", Measure::force)->factor == 1.0);
  CHECK(find_unit("kW", Measure::power)->factor == 1e3);
  CHECK(find_unit("kWh", Measure::energy)->factor == 3.6e6);
  CHECK(to_si(250.0, *find_unit("mV", Measure::voltage)) == 0.25);
  CHECK(to_si(250.0, *find_unit("mA", Measure::current)) == 0.25);
  CHECK_THAT(find_unit("psi", Measure::pressure)->factor,
             WithinRel(0.45359237 * 9.80665 / (0.0254 * 0.0254), 1e-15));
  CHECK_THAT(to_si(32.0, *find_unit("degF", Measure::temperature)), WithinAbs(273.15, 1e-12));
  CHECK_THAT(to_si(-40.0, *find_unit("degF", Measure::temperature)),
             WithinAbs(to_si(-40.0, *find_unit("degC", Measure::temperature)), 1e-12));
}

TEST_CASE("units: docs/units.md lists the same table") {
  std::ifstream page(std::string(HAILWRIGHT_SOURCE_DIR) + "/docs/units.md");
  REQUIRE(page.good());
  std::set<std::string> documented;
  std::string line;
  bool in_table = false;
  while (std::getline(page, line)) {
    if (line.starts_with("| unit | what it measures")) in_table = true;
    if (line.empty()) in_table = false;
    if (!in_table || !line.starts_with("| `")) continue;
    const std::string cell = line.substr(2, line.find(" |", 2) - 2);
    for (std::size_t at = cell.find('`'); at != std::string::npos;) {
      const std::size_t end = cell.find('`', at + 1);
      REQUIRE(end != std::string::npos);
      documented.insert(cell.substr(at + 1, end - at - 1));
      at = cell.find('`', end + 1);
    }
  }
  std::set<std::string> known;
  for (const Unit& unit : units()) {
    if (unit.symbol != "\u2126") known.insert(std::string(unit.symbol));  // looks the same as Ω
  }
  CHECK(documented == known);
}
