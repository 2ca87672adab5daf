#include "hailwright/evaluate/price.hpp"

#include "hailwright/evaluate/power_model.hpp"
#include "support/catch.hpp"
#include "support/test_builder.hpp"

using namespace hailwright;
using hailwright::testing::TestBuilder;

TEST_CASE("price: per watt that was measured and not per watt of the label") {
  TestBuilder b;
  b.test.record.panel.price = Money{90.0, "EUR"};
  b.test.record.panel.rated_power = Power::from_si(1000.0);
  const Test test = b.build();
  const auto price = price_per_watt(test);
  REQUIRE(price);
  CHECK(price->price.currency == "EUR");
  const auto power = reference_power(test, {StageKind::before, 0});
  REQUIRE(power);
  CHECK(price->power == power->power);
  CHECK(price->relative_u == power->relative_u);
  CHECK_THAT(price->value * price->power.si(), WithinRel(90.0, 1e-12));
}

TEST_CASE("price: a dearer panel is as much dearer a watt") {
  TestBuilder b;
  b.test.record.panel.price = Money{90.0, "EUR"};
  const double cheap = price_per_watt(b.build())->value;
  b.test.record.panel.price->amount = 180.0;
  CHECK_THAT(price_per_watt(b.build())->value, WithinRel(2.0 * cheap, 1e-12));
}

TEST_CASE("price: nothing without a price or without a reading before the shots") {
  TestBuilder b;
  b.test.record.panel.price.reset();
  CHECK_FALSE(price_per_watt(b.build()));
  b.test.record.panel.price = Money{90.0, "EUR"};
  Test test = b.build();
  test.record.readings.clear();
  CHECK_FALSE(price_per_watt(test));
}
