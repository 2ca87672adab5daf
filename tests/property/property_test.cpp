// The door to the library of property tests itself: it must find what is wrong.
#include "support/property.hpp"

#include <algorithm>

#include "support/catch.hpp"

namespace hailwright::testing {

TEST_CASE("Property: what does not hold is found and made small") {
  const auto found = counterexample(
      [](Draw& draw) {
        const int a = draw.whole("a number", 0, 1000);
        must(a < 10, "a number is below ten");
      },
      {});
  REQUIRE(found.has_value());
  CHECK_THAT(*found, Contains("a number is below ten"));
  CHECK_THAT(*found, Contains("a number:\n10"));
}

TEST_CASE("Property: what holds gives no counterexample") {
  int cases = 0;
  const auto found = counterexample(
      [&](Draw& draw) {
        ++cases;
        const double x = draw.number("x", -2.0, 3.0);
        must(-2.0 <= x && x <= 3.0, "a number lies in its range");
      },
      {.cases = 40});
  CHECK_FALSE(found.has_value());
  CHECK(cases == 40);
}

TEST_CASE("Property: the ends of a range are drawn and the seed decides what else") {
  const auto drawn = [](std::uint64_t seed) {
    std::vector<double> values;
    const auto keep = [&](Draw& draw) { values.push_back(draw.magnitude("x", 1.0, 1e6)); };
    CHECK_FALSE(counterexample(keep, {.cases = 100, .seed = seed}).has_value());
    return values;
  };
  const std::vector<double> values = drawn(1);
  CHECK(std::find(values.begin(), values.end(), 1.0) != values.end());
  CHECK(std::find(values.begin(), values.end(), 1e6) != values.end());
  CHECK(drawn(1) == values);
  CHECK(drawn(2) != values);
}

TEST_CASE("Property: an order holds every number once and not always in the same place") {
  std::vector<std::vector<std::size_t>> orders;
  const auto keep = [&](Draw& draw) {
    std::vector<std::size_t> order = draw.order("order", 5);
    orders.push_back(order);
    std::sort(order.begin(), order.end());
    must(order == std::vector<std::size_t>{0, 1, 2, 3, 4}, "every number once");
  };
  CHECK_FALSE(counterexample(keep, {}).has_value());
  std::sort(orders.begin(), orders.end());
  // Of 100 draws among 120 orders about 52 differ more often than not; 40 is far below.
  CHECK(std::unique(orders.begin(), orders.end()) - orders.begin() >= 40);
}

}  // namespace hailwright::testing
