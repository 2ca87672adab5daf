#include "report/line_up_prices.hpp"

#include <algorithm>
#include <cmath>

#include "support/catch.hpp"
#include "support/line_up_examples.hpp"

// That the formulas give these values when another program works them out, and what hailwright
// gives for another price, is shown by tests/outside/spreadsheet.

using namespace hailwright;
using namespace hailwright::detail;
using namespace hailwright::testing;
namespace title = hailwright::detail::price_column;

namespace {

const SheetCell& cell(const Sheet& sheet, const std::string& header, std::size_t row = 0) {
  for (std::size_t c = 0; c < sheet.rows[0].size(); ++c) {
    const auto& words = std::get<std::string>(sheet.rows[0][c].content);
    if (words == header || words.starts_with(header + " [") || words.starts_with(header + ":"))
      return sheet.rows.at(row + 1).at(c);
  }
  FAIL("no column " << header);
  return sheet.rows.front().front();
}

double value(const SheetCell& cell) {
  return std::get<double>(std::get<Formula>(cell.content).value);
}

Sheet sheet_of(const LineUpEntry& entry) {
  return PriceSheet({&entry}).sheet();
}

}  // namespace

TEST_CASE("line-up prices: what a reader may change is marked, and nothing else") {
  const Sheet sheet = sheet_of(line_up_panel("Rigid A", 0.006, 0.0045));
  for (const char* yours : {title::lowest, title::price, title::highest, title::power, title::rated,
                            title::area, title::weight})
    CHECK(cell(sheet, yours).to_change);
  for (const char* other : {title::record, title::currency, title::relative_u, title::per_watt,
                            title::u_per_watt, title::share_of_rated})
    CHECK_FALSE(cell(sheet, other).to_change);
}

TEST_CASE("line-up prices: each quotient with its formula and its value") {
  // 97 W measured of 100 W, 0.51 m2, 6.9 kg, 79 to 104 EUR.
  const Sheet sheet = sheet_of(line_up_panel("Rigid A", 0.006, 0.0045));
  const auto& per_watt = cell(sheet, title::per_watt);
  CHECK(std::get<Formula>(per_watt.content).text ==
        "=IF(AND(ISNUMBER($C$2),N($F$2)>0),$C$2/$F$2,\"\")");
  CHECK_THAT(value(per_watt), WithinRel(89.0 / 97.0, 1e-14));
  CHECK_THAT(value(cell(sheet, title::lowest_per_watt)), WithinRel(79.0 / 97.0, 1e-14));
  CHECK_THAT(value(cell(sheet, title::highest_per_watt)), WithinRel(104.0 / 97.0, 1e-14));
  CHECK_THAT(value(cell(sheet, title::u_per_watt)), WithinRel(0.03 * 89.0 / 97.0, 1e-14));
  CHECK_THAT(value(cell(sheet, title::per_rated)), WithinRel(0.89, 1e-14));
  CHECK_THAT(value(cell(sheet, title::lowest_per_rated)), WithinRel(0.79, 1e-14));
  CHECK_THAT(value(cell(sheet, title::highest_per_rated)), WithinRel(1.04, 1e-14));
  CHECK_THAT(value(cell(sheet, title::share_of_rated)), WithinRel(97.0, 1e-14));
  CHECK_THAT(value(cell(sheet, title::per_area)), WithinRel(97.0 / 0.51, 1e-14));
  CHECK_THAT(value(cell(sheet, title::per_mass)), WithinRel(97.0 / 6.9, 1e-14));
}

TEST_CASE("line-up prices: what is not known stays blank and can be typed") {
  LineUpEntry entry = line_up_panel("Rigid A", 0.006, 0.0045);
  entry.price.reset();
  entry.lowest_price.reset();
  entry.weight = Mass::from_si(0.0);
  const Sheet sheet = sheet_of(entry);
  CHECK(std::get<std::string>(cell(sheet, title::price).content).empty());
  CHECK(cell(sheet, title::price).to_change);
  for (const char* blank : {title::per_watt, title::u_per_watt, title::per_mass}) {
    CAPTURE(blank);
    const auto& formula = std::get<Formula>(cell(sheet, blank).content);
    CHECK(std::get<std::string>(formula.value).empty());
  }
  CHECK_THAT(value(cell(sheet, title::share_of_rated)), WithinRel(97.0, 1e-14));
}

TEST_CASE("line-up prices: another sheet shows what stands here") {
  const LineUpEntry entry = line_up_panel("Rigid A", 0.006, 0.0045);
  const PriceSheet prices({&entry, &entry});
  CHECK(prices.there(title::price, 1) == "=IF('prices'!$C$3=\"\",\"\",'prices'!$C$3)");
  CHECK(prices.u_there(title::per_area, 0) ==
        "=IF(AND(ISNUMBER('prices'!$S$2),ISNUMBER('prices'!$G$2)),'prices'!$S$2*'prices'!$G$2/100,"
        "\"\")");
}
