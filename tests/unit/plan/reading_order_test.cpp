#include "hailwright/plan/reading_order.hpp"

#include <string>

#include "support/catch.hpp"

using namespace hailwright;

namespace {

std::string letters(const std::vector<PlannedReading>& order) {
  std::string text;
  for (const PlannedReading& r : order) {
    text += r.of == ReadingOf::control ? 'C' : r.of == ReadingOf::struck ? 'A' : 'B';
  }
  return text;
}

/// Mean of struck minus control when the reading number i, one after the other, is off by i^power.
double drift_left(const std::vector<PlannedReading>& order, int power) {
  double sum = 0.0;
  for (std::size_t i = 0; i < order.size(); ++i) {
    double off = 1.0;
    for (int p = 0; p < power; ++p)
      off *= static_cast<double>(i);
    sum += (order[i].of == ReadingOf::struck ? off : -off);
  }
  return 2.0 * sum / static_cast<double>(order.size());
}

}  // namespace

TEST_CASE("reading_order: two panels and one meter change places") {
  CHECK(letters(reading_order(Comparison::control_panel, 1, 4)) == "CAACCAAC");
  CHECK(letters(reading_order(Comparison::control_panel, 1, 1)) == "CA");
  CHECK(reading_order(Comparison::control_panel, 1, 2) ==
        std::vector<PlannedReading>{{1, ReadingOf::control},
                                    {1, ReadingOf::struck},
                                    {2, ReadingOf::struck},
                                    {2, ReadingOf::control}});
}

TEST_CASE("reading_order: side by side, and alone") {
  CHECK(letters(reading_order(Comparison::control_panel, 2, 3)) == "BBB");
  CHECK(letters(reading_order(Comparison::same_panel, 1, 3)) == "AAA");
}

// Facts on substitution orders (computed): ABBA takes an even drift out and leaves 2 c of c t^2;
// in its own order AABB would be off by 2 a step.
TEST_CASE("reading_order: an even drift falls out of an even number of rounds") {
  for (int rounds = 1; rounds <= 12; ++rounds) {
    CAPTURE(rounds);
    const auto order = reading_order(Comparison::control_panel, 1, rounds);
    const bool removed = drift_left(order, 1) == 0.0;
    CHECK(removed == removes_even_drift(Comparison::control_panel, 1, rounds));
    CHECK(removed == (rounds % 2 == 0));
  }
  CHECK(drift_left(reading_order(Comparison::control_panel, 1, 2), 2) == -2.0);
  CHECK(removes_even_drift(Comparison::control_panel, 2, 3));
  CHECK_FALSE(removes_even_drift(Comparison::same_panel, 1, 4));
}
