// The non-central t, the power of t tests, and a worked comparison of two sets of readings, against
// R 4.2 and statsmodels. All run again with R 4.2.2 for this test, and equal to the digits given.
#include <cmath>
#include <functional>
#include <limits>
#include <vector>

#include "hailwright/metrology/budget.hpp"
#include "hailwright/metrology/distributions.hpp"
#include "hailwright/metrology/estimate.hpp"
#include "hailwright/metrology/statistics.hpp"
#include "hailwright/plan/measuring_forecast.hpp"
#include "support/catch.hpp"

using namespace hailwright;

namespace {

constexpr double infinite = std::numeric_limits<double>::infinity();

/// Power of a one-sided t test; a two-sided one at alpha counts one tail of alpha / 2, as R does
/// unless told otherwise.
double one_tail(double noncentrality, double dof, double alpha) {
  return 1.0 - noncentral_t_cdf(t_quantile(1.0 - alpha, dof), dof, noncentrality);
}

double both_tails(double noncentrality, double dof, double alpha) {
  return one_tail(noncentrality, dof, alpha / 2) +
         noncentral_t_cdf(-t_quantile(1.0 - alpha / 2, dof), dof, noncentrality);
}

/// Two groups of n, equal scatter.
double noncentrality_of_two(double n, double effect) {
  return effect * std::sqrt(n / 2.0);
}

/// Where a rising function crosses a level between 2 and 200.
double crossing(const std::function<double(double)>& rising, double level) {
  double low = 2.0;
  double high = 200.0;
  for (int i = 0; i < 100; ++i) {
    const double middle = 0.5 * (low + high);
    (rising(middle) < level ? low : high) = middle;
  }
  return low;
}

double n_of_two(double effect, double alpha, double power) {
  return crossing(
      [&](double n) { return one_tail(noncentrality_of_two(n, effect), 2.0 * n - 2.0, alpha); },
      power);
}

struct Detectable {
  double degrees_of_freedom;
  double at[3];
};

// clang-format off
constexpr Detectable detectable[] = {
    {3, {3.29944915, 3.92820838, 4.45636086}},
    {5, {2.90458187, 3.43173591, 3.86994181}},
    {7, {2.7666432, 3.26231332, 3.67301507}},
    {10, {2.67358471, 3.14943932, 3.54304085}},
    {11, {2.65490332, 3.1269288, 3.51725155}},
    {14, {2.61605608, 3.08028519, 3.46396306}},
    {20, {2.57512313, 3.03138675, 3.40832383}},
    {22, {2.56667478, 3.02132699, 3.39690702}},
    {50, {2.52082426, 2.96693075, 3.33535556}},
    {100, {2.50346998, 2.94643152, 3.31224231}},
    {infinite, {2.48647486, 2.92640519, 3.28970725}},
};
// clang-format on

// Invented readings, in W.
const std::vector<double> before{96.31, 96.02, 96.55, 96.18, 95.97, 96.40, 96.22, 96.09};
const std::vector<double> after{95.12, 95.40, 94.98, 95.33, 95.21, 94.87, 95.05, 95.29};

Combined mean_of(const std::vector<double>& values) {
  const auto n = static_cast<double>(values.size());
  return {sample_sd(values).value() / std::sqrt(n), n - 1.0};
}

void check_interval(double value, Combined c, double alpha, double low, double high) {
  const double half = t_quantile(1.0 - alpha, c.degrees_of_freedom) * c.standard_u;
  CHECK_THAT(value - half, WithinRel(low, 1e-7));
  CHECK_THAT(value + half, WithinRel(high, 1e-7));
  CHECK_THAT(lower_bound(value, c.standard_u, c.degrees_of_freedom, 1.0 - alpha),
             WithinRel(low, 1e-7));
}

}  // namespace

// R pt with three arguments. Status: computed; tolerance 1e-9. P(T <= 0) = Phi(-delta) is exact.
TEST_CASE("check nct_cdf: distribution function of the non-central t", "[reference]") {
  struct Row {
    double t, dof, noncentrality, p;
  };
  for (const Row& row :
       {Row{2, 10, 1, 0.80761156253}, Row{0, 5, 1, 0.158655253931}, Row{1.5, 22, 3, 0.069479565445},
        Row{2.0738730679, 22, 1.76776695, 0.606155970932}, Row{-1, 8, 0.5, 0.076723093111},
        Row{3, 30, -1, 0.999901188361}, Row{2.5, 100, 2.5, 0.497522844217}}) {
    CAPTURE(row.t, row.dof, row.noncentrality);
    CHECK_THAT(noncentral_t_cdf(row.t, row.dof, row.noncentrality), WithinAbs(row.p, 1e-9));
  }
  CHECK_THAT(noncentral_t_cdf(0, 5, 1), WithinAbs(normal_cdf(-1), 1e-14));
}

// Noncentrality that gives 80, 90, 95 % power at a one-sided risk of 0.05: R uniroot over pt.
// Status: computed; tolerance 1e-6. Adding the two quantiles of t instead overestimates.
TEST_CASE("check detect_delta_star: noncentrality of the smallest effect shown", "[reference]") {
  const double power[] = {0.80, 0.90, 0.95};
  for (const Detectable& row : detectable) {
    for (int i = 0; i < 3; ++i) {
      CAPTURE(row.degrees_of_freedom, power[i]);
      CHECK_THAT(detectable_noncentrality(row.degrees_of_freedom, 0.05, 1.0 - power[i]),
                 WithinAbs(row.at[i], 1e-6));
    }
  }
  CHECK(t_quantile(0.95, 5) + t_quantile(0.90, 5) > detectable_noncentrality(5, 0.05, 0.1) + 0.05);
}

// R power.t.test(n = 100, delta = 1, sd = 2.5). Status: read, as program output; tolerance 1e-6.
TEST_CASE("check power_t_read: power of a two-sample test", "[reference]") {
  const double noncentrality = noncentrality_of_two(100, 1.0 / 2.5);
  CHECK_THAT(one_tail(noncentrality, 198, 0.025), WithinAbs(0.8036466, 1e-6));
  CHECK_THAT(both_tails(noncentrality, 198, 0.05), WithinAbs(0.8036475, 1e-6));
}

// R 4.2 power.t.test; both tails as with strict = TRUE and in statsmodels. Status: computed;
// tolerance 1e-6, and 1e-4 for numbers of set-ups.
TEST_CASE("check power_t_computed: power, numbers and effects of t tests", "[reference]") {
  SECTION("two samples") {
    CHECK_THAT(one_tail(noncentrality_of_two(20, 1), 38, 0.025), WithinAbs(0.8689528017, 1e-6));
    CHECK_THAT(both_tails(noncentrality_of_two(20, 1), 38, 0.05), WithinAbs(0.8689530277, 1e-6));
    const double effect = 0.01 / 0.008;
    CHECK_THAT(one_tail(noncentrality_of_two(12, effect), 22, 0.025), WithinAbs(0.832947461, 1e-6));
    CHECK_THAT(one_tail(noncentrality_of_two(12, effect), 22, 0.05), WithinAbs(0.9067104171, 1e-6));
  }
  SECTION("numbers, and the whole number above them") {
    CHECK_THAT(n_of_two(1.0, 0.025, 0.90), WithinAbs(22.021096, 1e-4));
    CHECK_THAT(n_of_two(1.0, 0.05, 0.90), WithinAbs(17.847121, 1e-4));
    CHECK_THAT(n_of_two(0.005 / 0.008, 0.025, 0.80), WithinAbs(41.1690173, 1e-4));
    CHECK(setups_needed(1.0, 0.025, 0.90) == 23);
    CHECK(setups_needed(1.0, 0.05, 0.90) == 18);
    CHECK(setups_needed(0.005 / 0.008, 0.025, 0.80) == 42);
    const double pairs = crossing(
        [](double n) { return one_tail(0.005 * std::sqrt(n) / 0.008, n - 1.0, 0.025); }, 0.80);
    CHECK_THAT(pairs, WithinAbs(22.09073249, 1e-4));
  }
  SECTION("effects") {
    const double u = 0.008 * std::sqrt(2.0 / 12.0);
    CHECK_THAT(detectable_noncentrality(22, 0.05, 0.10) * u, WithinAbs(0.009867612622, 1e-6));
    CHECK_THAT(detectable_noncentrality(22, 0.025, 0.20) * u, WithinAbs(0.009574506455, 1e-6));
    CHECK_THAT(detectable_noncentrality(5, 0.025, 0.20) / std::sqrt(6.0),
               WithinAbs(1.434545344, 1e-6));
    CHECK_THAT(detectable_noncentrality(4, 0.05, 0.10) * std::sqrt(2.0 / 3.0),
               WithinAbs(2.939340252, 1e-6));
  }
  SECTION("pairs and one sample") {
    const double noncentrality = 0.005 / 0.006 * std::sqrt(10.0);
    CHECK_THAT(one_tail(noncentrality, 9, 0.025), WithinAbs(0.6512199565, 1e-6));
    CHECK_THAT(both_tails(noncentrality, 9, 0.05), WithinAbs(0.6512265861, 1e-6));
    CHECK_THAT(one_tail(noncentrality, 9, 0.05), WithinAbs(0.7838040598, 1e-6));
    CHECK_THAT(one_tail(2.0 * std::sqrt(5.0), 4, 0.025), WithinAbs(0.9088848642, 1e-6));
  }
}

// R t.test and statsmodels ttost_ind on the readings above. Status: computed; tolerance 1e-7
// relative. The drop is significant and, at once, shown to lie within 1.5 W: the two questions are
// never one.
TEST_CASE("check ttest_tost_1: separate, pooled and paired scatter, and equivalence",
          "[reference]") {
  const double drop = mean(before) - mean(after);
  const Combined separate = combine(mean_of(before), mean_of(after));
  SECTION("separate") {
    const double t = drop / separate.standard_u;
    CHECK_THAT(t, WithinRel(11.16070606, 1e-7));
    CHECK_THAT(separate.degrees_of_freedom, WithinRel(13.93581674, 1e-7));
    CHECK_THAT(2.0 * t_cdf(-t, separate.degrees_of_freedom), WithinRel(2.47149789e-08, 1e-7));
    check_interval(drop, separate, 0.025, 0.857218217176, 1.265281782824);
  }
  SECTION("pooled, as the tool pools set-ups") {
    const double sb = sample_sd(before).value();
    const double sa = sample_sd(after).value();
    const Combined pooled{std::sqrt((7.0 * sb * sb + 7.0 * sa * sa) / 14.0 * (2.0 / 8.0)), 14.0};
    check_interval(drop, pooled, 0.025, 0.857306373114, 1.265193626886);
  }
  SECTION("paired") {
    std::vector<double> differences;
    for (std::size_t i = 0; i < before.size(); ++i)
      differences.push_back(before[i] - after[i]);
    const Combined paired = mean_of(differences);
    const double t = mean(differences) / paired.standard_u;
    CHECK_THAT(t, WithinRel(8.346770162, 1e-7));
    CHECK_THAT(2.0 * t_cdf(-t, paired.degrees_of_freedom), WithinRel(6.94477665e-05, 1e-7));
    check_interval(mean(differences), paired, 0.025, 0.760599875668, 1.361900124332);
  }
  SECTION("equivalence within 1.5 W at 5 %") {
    const double margin = 1.5;
    const double u = separate.standard_u;
    const double dof = separate.degrees_of_freedom;
    CHECK_THAT(u, WithinRel(0.0950880700794, 1e-7));
    const double below = 1.0 - probability_at_least(drop, u, dof, -margin);
    CHECK_THAT(t_cdf((-margin - drop) / u, dof), WithinRel(1.01518261739e-13, 1e-7));
    CHECK_THAT(below, WithinAbs(1.01518261739e-13, 1e-15));
    CHECK_THAT(probability_at_least(drop, u, dof, margin), WithinRel(0.00020311264179, 1e-7));
    check_interval(drop, separate, 0.05, 0.893715897798, 1.2287841022);
    CHECK(drop + t_quantile(0.95, dof) * u < margin);
  }
}
