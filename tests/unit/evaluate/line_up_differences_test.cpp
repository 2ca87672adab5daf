#include "evaluate/line_up_differences.hpp"

#include <algorithm>
#include <cmath>

#include "hailwright/metrology/random.hpp"
#include "support/catch.hpp"

using namespace hailwright;

namespace {

constexpr double endless = std::numeric_limits<double>::infinity();

LineUpEntry entry(double log, std::vector<LineUpError> errors,
                  LineUpQuantity quantity = LineUpQuantity::loss) {
  LineUpEntry e;
  e.numbers[quantity] = {log, std::move(errors), 0.0, endless};
  return e;
}

LineUpGroup rank(const std::vector<LineUpEntry>& entries,
                 LineUpQuantity quantity = LineUpQuantity::loss) {
  std::vector<std::size_t> members(entries.size());
  for (std::size_t i = 0; i < members.size(); ++i)
    members[i] = i;
  return rank_group(entries, members, quantity);
}

}  // namespace

// By hand. One instrument pulls both numbers, by 0.010 and 0.007: their difference by 0.003. Own
// scatter of 0.003 and 0.004 with 6 degrees of freedom each.
//   u^2 = (9 + 9 + 16) 1e-6, u = 0.0058309519
//   nu  = 34^2 / ((9^2 + 16^2)/6) = 6936/337 = 20.5816
//   scatter alone: u = 0.005, nu = 25^2 6/337 = 3750/337 = 11.1276
// R 4.2.2: 2*pt(-0.02/sqrt(34e-6), 6936/337) = 0.0025698; 2*pt(-4, 3750/337) = 0.0020396;
// qt(0.975, 6936/337)*sqrt(34e-6) = 0.0121411557.
TEST_CASE("line-up: a difference by hand") {
  const std::vector<LineUpEntry> two{
      entry(-0.01, {{"meter/m1/gain", 0.010, endless}, {"", 0.003, 6.0}}),
      entry(-0.03, {{"meter/m1/gain", 0.007, endless}, {"", 0.004, 6.0}})};
  const LineUpGroup group = rank(two);
  REQUIRE(group.differences.size() == 1);
  const LineUpDifference& d = group.differences[0];
  CHECK(d.better == 0);
  CHECK(d.worse == 1);
  CHECK_THAT(d.difference, WithinAbs(0.02, 1e-15));
  CHECK_THAT(d.standard_u, WithinAbs(0.0058309519, 1e-10));
  CHECK_THAT(d.degrees_of_freedom, WithinAbs(6936.0 / 337.0, 1e-9));
  CHECK_THAT(d.p, WithinAbs(0.00256978422515484, 1e-12));
  CHECK_THAT(d.p_adjusted, WithinAbs(d.p, 0.0));
  CHECK_THAT(d.low, WithinAbs(0.02 - 0.0121411557127462, 1e-11));
  CHECK_THAT(d.high, WithinAbs(0.02 + 0.0121411557127462, 1e-11));
  CHECK(d.shown);
}

// An error that nobody can repeat away must not make few repeats count for more than they are (M2).
TEST_CASE("line-up: a difference is never better known than its scatter") {
  const std::vector<LineUpError> errors{{"", 0.001, 1.0}, {"", 0.0012, endless}};
  const LineUpGroup group = rank({entry(0.0, errors), entry(-0.01, errors)});
  const LineUpDifference& d = group.differences[0];
  // Scatter alone: t = 0.01/(sqrt(2) 0.001) = 7.0711 with 2 degrees of freedom; R: 2*pt(-7.0710678,
  // 2) = 0.019419324. All: nu = 2 (1 + 1.44)^2 = 11.9, and 2*pt(-4.5268, 11.907) = 0.00070713
  // would be taken for a proof.
  CHECK_THAT(d.p, WithinAbs(0.019419324, 1e-8));
}

// Three numbers 0.02 apart, each known to 0.01: u of a difference = 0.0141421.
// R 4.2.2: 2*pnorm(-sqrt(2)) = 0.157299207, 2*pnorm(-2*sqrt(2)) = 0.004677735; Holm: three times
// the smallest = 0.0140332, the others two times and at least that, 0.3145984.
// Bonferroni: qnorm(1 - 0.05/6)*sqrt(2)*0.01 = 0.0338559870.
TEST_CASE("line-up: A is like B, B like C, and A better than C") {
  const std::vector<LineUpError> own{{"", 0.01, endless}};
  const LineUpGroup group = rank({entry(-0.02, own), entry(0.0, own), entry(-0.04, own)});
  REQUIRE(group.differences.size() == 3);
  CHECK(group.each_with_each);
  CHECK_THAT(group.differences[1].p_adjusted, WithinAbs(3.0 * 0.00467773498104726, 1e-12));
  CHECK_THAT(group.differences[0].p_adjusted, WithinAbs(2.0 * 0.157299207050285, 1e-12));
  CHECK(group.differences[1].shown);
  CHECK_FALSE(group.differences[0].shown);
  CHECK_FALSE(group.differences[2].shown);
  CHECK_THAT(group.differences[0].high - group.differences[0].difference,
             WithinAbs(0.0338559870095056, 1e-12));
  const std::vector<LineUpRank> expected{{1, 1, 2}, {0, 1, 3}, {2, 2, 3}};
  REQUIRE(group.ranks.size() == 3);
  for (std::size_t i = 0; i < 3; ++i) {
    CAPTURE(i);
    CHECK(group.ranks[i].entry == expected[i].entry);
    CHECK(group.ranks[i].first == expected[i].first);
    CHECK(group.ranks[i].last == expected[i].last);
  }
}

TEST_CASE("line-up: what both share cancels, and only by its key") {
  const auto u_with = [](const char* key_a, const char* key_b) {
    return errors_of_difference({0.0, {{key_a, 0.03, endless}, {"", 0.002, endless}}, 0.0, endless},
                                {0.0, {{key_b, 0.03, endless}, {"", 0.002, endless}}, 0.0, endless})
        .all.standard_u;
  };
  CHECK_THAT(u_with("meter/m1/gain", "meter/m1/gain"), WithinAbs(0.002 * std::sqrt(2.0), 1e-15));
  CHECK_THAT(u_with("meter/m1/gain", "meter/m2/gain"),
             WithinAbs(std::sqrt(2.0 * (0.03 * 0.03 + 0.002 * 0.002)), 1e-15));
  CHECK_THAT(u_with("", ""), WithinAbs(u_with("meter/m1/gain", "meter/m2/gain"), 1e-15));
}

// One instrument can pull two numbers to different sides: then its error counts twice.
TEST_CASE("line-up: shared errors add with their signs") {
  const LineUpNumber up{0.0, {{"sun/s/gain", 0.01, endless}}, 0.01, endless};
  const LineUpNumber down{0.0, {{"sun/s/gain", -0.01, endless}}, 0.01, endless};
  CHECK_THAT(errors_of_difference(up, down).all.standard_u, WithinAbs(0.02, 1e-15));
  CHECK_THAT(errors_of_difference(up, up).all.standard_u, WithinAbs(0.0, 1e-15));
}

TEST_CASE("line-up: the least price is first") {
  const std::vector<LineUpError> own{{"", 0.001, endless}};
  const auto price = LineUpQuantity::price_per_watt;
  const LineUpGroup group =
      rank({entry(0.3, own, price), entry(-0.1, own, price), entry(0.1, own, price)}, price);
  CHECK(group.ranks[0].entry == 1);
  CHECK(group.ranks[1].entry == 2);
  CHECK(group.ranks[2].entry == 0);
  CHECK(group.ranks[2].first == 3);
  CHECK(group.ranks[2].last == 3);
}

TEST_CASE("line-up: ties keep the order given and share ranks") {
  const std::vector<LineUpError> own{{"", 0.001, endless}};
  const LineUpGroup group = rank({entry(0.0, own), entry(0.0, own)});
  CHECK(group.ranks[0].entry == 0);
  CHECK(group.ranks[1].entry == 1);
  CHECK(group.differences[0].p == 1.0);
  CHECK(group.ranks[0].last == 2);
  CHECK(group.ranks[1].first == 1);
  // Without any error a difference is there or not.
  const LineUpGroup exact = rank({entry(0.0, {}), entry(0.0, {}), entry(-0.1, {})});
  CHECK(exact.differences[0].p == 1.0);
  CHECK(exact.differences[1].p == 0.0);
  CHECK(exact.ranks[2].first == 3);
}

TEST_CASE("line-up: twelve are compared each with each and thirteen are not") {
  std::vector<LineUpEntry> entries;
  for (int i = 0; i < 12; ++i)
    entries.push_back(entry(-0.01 * i, {{"", 0.002, endless}}));
  CHECK(rank(entries).differences.size() == 66);
  entries.push_back(entry(-0.005, {{"", 0.002, endless}}));
  const LineUpGroup group = rank(entries);
  CHECK_FALSE(group.each_with_each);
  REQUIRE(group.differences.size() == 12 + 11);
  for (std::size_t i = 0; i < 12; ++i) {
    CHECK(group.differences[i].better == group.ranks[i].entry);
    CHECK(group.differences[i].worse == group.ranks[i + 1].entry);
  }
  for (std::size_t i = 12; i < group.differences.size(); ++i) {
    CHECK(group.differences[i].better == 0);
    CHECK(group.differences[i].worse == group.ranks[i - 10].entry);
  }
  // The thirteenth given is second in the order.
  CHECK(group.ranks[1].entry == 12);
  // The last is shown worse than the first and than its neighbour; nobody looked at the rest.
  CHECK(group.ranks[12].first == 3);
  CHECK(group.ranks[12].last == 13);
}

namespace {

/// Of so many equal panels read with one meter, scatter estimated with 6 degrees of freedom and an
/// error of their own each: in how many line-ups a difference is shown.
int wrong_line_ups(int line_ups, int panels, RandomStream& random) {
  constexpr double scatter = 0.004;
  int wrong = 0;
  for (int i = 0; i < line_ups; ++i) {
    const double gain = 0.03 * random.normal();
    std::vector<LineUpEntry> entries;
    for (int panel = 0; panel < panels; ++panel) {
      const double seen = scatter * std::sqrt(random.chi_squared(6) / 6.0);
      const double log = gain + 0.002 * random.normal() + scatter * random.normal();
      entries.push_back(
          entry(log, {{"meter/m1/gain", 0.03, endless}, {"", 0.002, endless}, {"", seen, 6.0}}));
    }
    const auto differences = rank(entries).differences;
    wrong += std::any_of(differences.begin(), differences.end(),
                         [](const LineUpDifference& d) { return d.shown; })
                 ? 1
                 : 0;
  }
  return wrong;
}

}  // namespace

TEST_CASE("line-up: equal panels are rarely shown to differ", "[simulation]") {
  RandomStream random(20260614);
  const int wrong = wrong_line_ups(4000, 5, random);
  // 5 % and three standard deviations of the count; and not so few that nothing is ever shown.
  CHECK(wrong <= 241);
  CHECK(wrong >= 60);
}

// Found by review: the results pick the first and the neighbours, and counted by the pairs picked
// alone 10 % of line-ups of 13 equal panels and 52 % of those of 200 showed a difference.
TEST_CASE("line-up: of many equal panels the first is no better for being first", "[simulation]") {
  RandomStream random(20260615);
  // 5 % of 2000 and three standard deviations of the count: 100 + 3 sqrt(95) = 129.
  CHECK(wrong_line_ups(2000, 13, random) <= 129);
  CHECK(wrong_line_ups(2000, 30, random) <= 129);
}

// Thirteen have 78 pairs, of which 23 are looked at. Half of an
// interval: -qnorm(0.05/156) sqrt(2) 0.002, by Python's statistics.NormalDist.
TEST_CASE("line-up: of more than twelve all pairs count, though few are looked at") {
  std::vector<LineUpEntry> entries;
  for (int i = 0; i < 13; ++i)
    entries.push_back(entry(-0.009 * i, {{"", 0.002, endless}}));
  for (const LineUpDifference& d : rank(entries).differences) {
    CHECK_THAT(d.p_adjusted, WithinAbs(std::min(1.0, 78.0 * d.p), 1e-15));
    // Holm over the 23 alone would have called neighbours different: 12 times 0.0015.
    CHECK(d.shown == (d.difference > 0.01));
    CHECK_THAT(d.high - d.difference, WithinAbs(0.009655215752, 1e-8));
  }
}

// Found by review: a price of 80 to 120 was said to be lower than one of 110, which is only its
// average's.
TEST_CASE("line-up: prices differ beyond their ranges alone") {
  const auto price = LineUpQuantity::price_per_watt;
  const std::vector<LineUpError> own{{"", 0.001, endless}};
  std::vector<LineUpEntry> two{entry(std::log(1.00), own, price),
                               entry(std::log(1.10), own, price)};
  two[0].price = Money{100.0, "EUR"};
  two[1].price = Money{110.0, "EUR"};
  CHECK(rank(two, price).differences[0].shown);
  two[0].highest_price = Money{120.0, "EUR"};
  CHECK_FALSE(rank(two, price).differences[0].shown);
  CHECK(rank(two, price).ranks[0].last == 2);
  two[0].highest_price = Money{105.0, "EUR"};
  CHECK(rank(two, price).differences[0].shown);
  two[1].lowest_price = Money{104.0, "EUR"};
  CHECK_FALSE(rank(two, price).differences[0].shown);
}

TEST_CASE("line-up: a range without its price, or of nothing, widens nothing") {
  const auto price = LineUpQuantity::price_per_watt;
  const std::vector<LineUpError> own{{"", 0.001, endless}};
  std::vector<LineUpEntry> two{entry(std::log(1.00), own, price),
                               entry(std::log(1.10), own, price)};
  two[0].highest_price = Money{120.0, "EUR"};
  CHECK(rank(two, price).differences[0].shown);
  two[0].price = Money{0.0, "EUR"};
  CHECK(rank(two, price).differences[0].shown);
  two[0].price = Money{100.0, "EUR"};
  CHECK_FALSE(rank(two, price).differences[0].shown);
  two[0].highest_price = Money{0.0, "EUR"};
  CHECK(rank(two, price).differences[0].shown);
}
