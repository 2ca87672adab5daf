#include "hailwright/plan/reading_order.hpp"

#include <cmath>
#include <string>

#include "support/catch.hpp"

using namespace hailwright;

namespace {

std::string letters(const std::vector<PlannedReading>& order) {
  std::string text;
  for (const PlannedReading& r : order) {
    switch (r.of) {
    case ReadingOf::struck:
      text += 'A';
      break;
    case ReadingOf::control:
      text += 'C';
      break;
    case ReadingOf::both:
      text += 'B';
      break;
    case ReadingOf::sibling:
      text += static_cast<char>('0' + r.unit);
      break;
    }
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

TEST_CASE("reading_order: the struck panel and its siblings, there and back") {
  CHECK(letters(reading_order(Comparison::sibling_panel, 1, 2, 3)) == "A123321A");
  CHECK(letters(reading_order(Comparison::sibling_panel, 1, 3, 1)) == "A11AA1");
  const auto order = reading_order(Comparison::sibling_panel, 1, 3, 4);
  CHECK(order.size() == 15);
  CHECK(order.back().round == 3);
  CHECK(order.back().unit == 4);
}

// Struck less the mean of the siblings, when reading number i is off by i.
TEST_CASE("reading_order: an even drift falls out of siblings read there and back") {
  for (const int siblings : {1, 3, 4}) {
    for (const int rounds : {1, 2, 3, 4}) {
      CAPTURE(siblings, rounds);
      const auto order = reading_order(Comparison::sibling_panel, 1, rounds, siblings);
      double left = 0.0;
      for (std::size_t i = 0; i < order.size(); ++i) {
        const double share = order[i].of == ReadingOf::struck ? 1.0 : -1.0 / siblings;
        left += share * static_cast<double>(i) / rounds;
      }
      const bool removed = std::abs(left) < 1e-9;
      CHECK(removed == removes_even_drift(Comparison::sibling_panel, 1, rounds));
      CHECK(removed == (rounds % 2 == 0));
    }
  }
  // Two meters do not read five panels at once.
  CHECK_FALSE(removes_even_drift(Comparison::sibling_panel, 2, 3));
}
