#include "logs/clock_offset_sums.hpp"

#include <cmath>
#include <limits>
#include <vector>

#include "hailwright/metrology/random.hpp"
#include "support/catch.hpp"

using namespace hailwright;
using namespace hailwright::detail;

namespace {

constexpr double unknown = std::numeric_limits<double>::quiet_NaN();

/// The correlation by its definition, over the pairs where both are known.
double plain_correlation(const std::vector<double>& first, const std::vector<double>& second,
                         int lag, double& pairs) {
  double product = 0.0, squares_first = 0.0, squares_second = 0.0;
  pairs = 0.0;
  for (int k = 0; k < static_cast<int>(first.size()); ++k) {
    const int other = k - lag;
    if (other < 0 || other >= static_cast<int>(second.size())) continue;
    const double a = first[static_cast<std::size_t>(k)],
                 b = second[static_cast<std::size_t>(other)];
    if (std::isnan(a) || std::isnan(b)) continue;
    product += a * b;
    squares_first += a * a;
    squares_second += b * b;
    pairs += 1.0;
  }
  return squares_first > 0.0 && squares_second > 0.0
             ? product / std::sqrt(squares_first * squares_second)
             : 0.0;
}

}  // namespace

TEST_CASE("clock offset sums: the correlation of every lag by its definition") {
  constexpr std::size_t lags = 17;
  for (const double blank : {0.0, 0.004, 0.2}) {
    CAPTURE(blank);
    RandomStream random(6, 7);
    std::vector<double> first, second;
    for (int i = 0; i < 9000; ++i) {  // beyond the room of the memory
      first.push_back(random.uniform() < blank ? unknown : random.normal());
      const bool known = i >= 5 && !std::isnan(first[static_cast<std::size_t>(i - 5)]);
      const double shared = known ? first[static_cast<std::size_t>(i - 5)] : 0.0;
      second.push_back(random.uniform() < blank ? unknown : shared + 0.5 * random.normal());
    }
    RecentChanges first_changes(lags), second_changes(lags);
    BatchedSums sums(lags);
    for (std::size_t i = 0; i < first.size(); ++i) {
      first_changes.add(first[i]);
      second_changes.add(second[i]);
      sums.add(first_changes, second_changes);
    }
    const LagSums total = sums.total();
    CHECK(sums.batches().size() > 16);
    CHECK(sums.batches().size() <= 32);
    for (int lag = -17; lag <= 17; ++lag) {
      CAPTURE(lag);
      double pairs = 0.0;
      const double wanted = plain_correlation(first, second, lag, pairs);
      CHECK_THAT(total.correlation(lag), WithinAbs(wanted, 1e-12));
      // Steps before the first one count as unknown.
      CHECK(total.pairs(lag) == pairs);
    }
    CHECK(total.correlation(-5) > 0.6);
  }
}

TEST_CASE("clock offset sums: without changes the correlation is 0") {
  RecentChanges changes(3);
  BatchedSums sums(3);
  for (int i = 0; i < 100; ++i) {
    changes.add(i % 2 == 0 ? unknown : 0.0);
    sums.add(changes, changes);
  }
  CHECK(sums.total().correlation(0) == 0.0);
  CHECK(sums.total().correlation(-3) == 0.0);
}

TEST_CASE("clock offset sums: what is forgotten makes no pairs") {
  RecentChanges first(2), second(2);
  LagSums sums(2);
  for (int i = 0; i < 5; ++i) {
    first.add(1.0);
    second.add(1.0);
    if (i == 3) {
      first.forget();
      second.forget();
    }
    sums.add(first, second);
  }
  CHECK(sums.pairs(0) == 4.0);
  CHECK(sums.pairs(1) == 2.0);
  CHECK(sums.pairs(-2) == 1.0);
}
