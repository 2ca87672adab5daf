#include "report/line_up_values.hpp"

#include <cmath>

#include "support/catch.hpp"
#include "support/line_up_examples.hpp"

using namespace hailwright;
using namespace hailwright::detail;
using namespace hailwright::testing;

TEST_CASE("line-up values: a loss has its record's own interval and level") {
  LineUpEntry entry = line_up_panel("Rigid A", 0.018, 0.0045);
  const auto loss = line_up_value(entry, LineUpQuantity::loss);
  REQUIRE(loss);
  CHECK_THAT(loss->value, WithinAbs(1.8, 1e-12));
  CHECK_THAT(loss->low, WithinAbs(100.0 * entry.loss->low().si(), 1e-12));
  CHECK(value_text(*loss) == "1.8 % (95 %: 0.9 % to 2.7 %)");
  entry.loss->alpha = 0.005;
  CHECK(line_up_value(entry, LineUpQuantity::loss)->level == "99 %");
}

TEST_CASE("line-up values: other numbers have 95 % of Student's t about their logarithm") {
  LineUpEntry entry = line_up_panel("Rigid A", 0.018, 0.0045);
  entry.numbers[LineUpQuantity::power] = {std::log(97.0), {}, 0.03, 4.0};
  const auto power = line_up_value(entry, LineUpQuantity::power);
  REQUIRE(power);
  // t of 4 degrees of freedom at 97.5 %: 2.776 (JCGM 100:2008, table G.2, p = 95 %: 2.78).
  CHECK_THAT(power->low, WithinAbs(97.0 * std::exp(-0.03 * 2.7764), 0.001));
  CHECK_THAT(power->high, WithinAbs(97.0 * std::exp(0.03 * 2.7764), 0.001));
  CHECK(value_text(*power) == "97.0 W (95 %: 89.2 W to 105.4 W)");
}

TEST_CASE("line-up values: each quantity in the unit that people read it in") {
  const LineUpEntry entry = line_up_panel("Rigid A", 0.018, 0.0045);
  const auto unit = [&](LineUpQuantity q) { return line_up_value(entry, q)->unit; };
  CHECK(unit(LineUpQuantity::power) == "W");
  CHECK(unit(LineUpQuantity::share_of_rated) == "%");
  CHECK(unit(LineUpQuantity::power_per_area) == "W/m2");
  CHECK(unit(LineUpQuantity::power_per_mass) == "W/kg");
  CHECK(unit(LineUpQuantity::price_per_watt) == "EUR/W");
  // 0.52 is the share that is left in the shade.
  const auto shade = line_up_value(entry, LineUpQuantity::shading_loss);
  CHECK_THAT(shade->value, WithinAbs(48.0, 1e-9));
  CHECK(shade->low < 48.0);
  CHECK(shade->high > 48.0);
}

TEST_CASE("line-up values: a number that the record does not have") {
  LineUpEntry entry = line_up_panel("Rigid A", 0.018, 0.0045);
  entry.numbers.erase(LineUpQuantity::loss);
  CHECK_FALSE(line_up_value(entry, LineUpQuantity::loss));
}
