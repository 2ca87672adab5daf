// Exact one-sided bounds of a proportion (Clopper and Pearson 1934) against tables of other
// programs, and the numbers of trials without or with few failures that follow from them. The
// program bounds the chance of visible damage per hit on one panel (MEASUREMENT M12); it never
// prints a success-run statement, which would need many panels. The tables of success runs are used
// here only because they ask the same function from the other side.
#include <cmath>

#include "hailwright/metrology/distributions.hpp"
#include "support/catch.hpp"

using namespace hailwright;

namespace {

struct Bounds {
  int events, trials;
  double low, high;  ///< two-sided 95 %
  double upper;      ///< one-sided 95 %
};

struct Run {
  double reliability, confidence;
  int trials;
};

// clang-format off
constexpr Bounds bounds[] = {
    {0, 1, 0.0, 0.975, 0.95},
    {0, 3, 0.0, 0.7075982262, 0.6315968501},
    {0, 5, 0.0, 0.5218237501, 0.4507197283},
    {0, 10, 0.0, 0.3084971078, 0.2588655509},
    {0, 11, 0.0, 0.2849141529, 0.2384041904},
    {0, 20, 0.0, 0.168433471, 0.1391083407},
    {0, 22, 0.0, 0.1543725128, 0.1273054317},
    {0, 30, 0.0, 0.1157033082, 0.0950338529},
    {0, 59, 0.0, 0.060608901, 0.0495076099},
    {0, 100, 0.0, 0.0362166926, 0.0295130496},
    {1, 10, 0.0025285785, 0.445016117, 0.3941633024},
    {1, 11, 0.0022989722, 0.412779917, 0.3643594892},
    {2, 10, 0.0252107263, 0.5560954623, 0.5069013011},
    {3, 11, 0.0602177342, 0.6097425596, 0.5643741883},
    {5, 10, 0.1870860284, 0.8129139716, 0.777558899},
    {10, 10, 0.6915028922, 1.0, 1.0},
    {1, 20, 0.0012650895, 0.2487327628, 0.2161061642},
    {4, 20, 0.0573339971, 0.436614003, 0.4010281173},
    {8, 26, 0.1432599979, 0.5178964364, 0.4869982212},
    {15, 200, 0.0425828037, 0.1206842254, 0.1131383883},
};

constexpr Run runs[] = {
    {0.5, 0.5, 1},
    {0.5, 0.8, 3},
    {0.5, 0.9, 4},
    {0.5, 0.95, 5},
    {0.5, 0.99, 7},
    {0.8, 0.5, 4},
    {0.8, 0.8, 8},
    {0.8, 0.9, 11},
    {0.8, 0.95, 14},
    {0.8, 0.99, 21},
    {0.9, 0.5, 7},
    {0.9, 0.8, 16},
    {0.9, 0.9, 22},
    {0.9, 0.95, 29},
    {0.9, 0.99, 44},
    {0.95, 0.5, 14},
    {0.95, 0.8, 32},
    {0.95, 0.9, 45},
    {0.95, 0.95, 59},
    {0.95, 0.99, 90},
    {0.99, 0.5, 69},
    {0.99, 0.8, 161},
    {0.99, 0.9, 230},
    {0.99, 0.95, 299},
    {0.99, 0.99, 459},
    {0.999, 0.5, 693},
    {0.999, 0.8, 1609},
    {0.999, 0.9, 2302},
    {0.999, 0.95, 2995},
    {0.999, 0.99, 4603},
};
// clang-format on

/// Smallest number of trials with so many failures after which the chance of failure is shown to be
/// at most 1 - reliability.
int trials_needed(int failures, double reliability, double confidence) {
  // Where the bound meets 1 - R exactly (one trial for 50 % at 50 %), rounding must not add a
  // trial.
  constexpr double rounding = 1e-12;
  for (int n = failures + 1;; ++n) {
    if (proportion_upper_bound(failures, n, confidence) <= 1.0 - reliability + rounding) return n;
  }
}

}  // namespace

// R 4.2 binom.test, equal to statsmodels' beta method. Status: computed; tolerance 1e-8.
TEST_CASE("check clopper_pearson: exact bounds of a proportion", "[reference]") {
  for (const Bounds& row : bounds) {
    CAPTURE(row.events, row.trials);
    CHECK_THAT(proportion_lower_bound(row.events, row.trials, 0.975), WithinAbs(row.low, 1e-8));
    CHECK_THAT(proportion_upper_bound(row.events, row.trials, 0.975), WithinAbs(row.high, 1e-8));
    CHECK_THAT(proportion_upper_bound(row.events, row.trials, 0.95), WithinAbs(row.upper, 1e-8));
  }
}

// No failure in n trials: 1 - 0.05^(1/n). Status: computed; tolerance 1e-12. The rule of three,
// read on a page about it, is good above 30 trials and plainly another number below.
TEST_CASE("check zero_fail_upper: bound after no failure", "[reference]") {
  struct Row {
    int n;
    double one_sided, two_sided, rule_of_three;
  };
  for (const Row& row : {Row{3, 0.6315968501359612, 0.7075982261787134, 1.0},
                         Row{5, 0.4507197283469412, 0.5218237501049815, 0.6},
                         Row{10, 0.2588655508930523, 0.30849710781876083, 0.3},
                         Row{11, 0.2384041903808527, 0.2849141529181545, 0.2727272727272727},
                         Row{20, 0.13910834066826516, 0.16843347098308536, 0.15},
                         Row{59, 0.049507609888227, 0.06060890095033988, 0.05084745762711865}}) {
    CAPTURE(row.n);
    CHECK_THAT(proportion_upper_bound(0, row.n, 0.95), WithinAbs(row.one_sided, 1e-12));
    CHECK_THAT(proportion_upper_bound(0, row.n, 0.975), WithinAbs(row.two_sided, 1e-12));
    CHECK(proportion_upper_bound(0, row.n, 0.95) < row.rule_of_three);
  }
}

// n = ceil(ln(1 - C) / ln R), formula read on a page about reliability tests. Status: computed;
// exact.
TEST_CASE("check success_run_n: trials without a failure", "[reference]") {
  for (const Run& row : runs) {
    CAPTURE(row.reliability, row.confidence);
    CHECK(trials_needed(0, row.reliability, row.confidence) == row.trials);
  }
}

// R = (1 - C)^(1/(n + 1)), the same name for another convention: a uniform prior counts as one
// trial more. Status: read; tolerance 5e-7. Ours is the exact bound, which is lower for the same n;
// it meets the variant at n + 1.
TEST_CASE("check success_run_bayes_variant: the other convention is not ours", "[reference]") {
  struct Row {
    int n;
    double confidence, reliability;
  };
  for (const Row& row : {Row{10, 0.90, 0.811131}, Row{29, 0.95, 0.904966}, Row{59, 0.95, 0.951297},
                         Row{99, 0.99, 0.954993}}) {
    CAPTURE(row.n);
    CHECK_THAT(1.0 - proportion_upper_bound(0, row.n + 1, row.confidence),
               WithinAbs(row.reliability, 5e-7));
    CHECK(1.0 - proportion_upper_bound(0, row.n, row.confidence) < row.reliability - 5e-7);
  }
}

// P(X <= f) <= 1 - C for X binomial with 1 - R. Status: computed; exact.
TEST_CASE("check n_with_failures: trials with none to three failures", "[reference]") {
  struct Row {
    double reliability, confidence;
    int trials[4];
  };
  for (const Row& row :
       {Row{0.90, 0.90, {22, 38, 52, 65}}, Row{0.90, 0.95, {29, 46, 61, 76}},
        Row{0.95, 0.90, {45, 77, 105, 132}}, Row{0.95, 0.95, {59, 93, 124, 153}}}) {
    for (int failures = 0; failures < 4; ++failures) {
      CAPTURE(row.reliability, row.confidence, failures);
      CHECK(trials_needed(failures, row.reliability, row.confidence) == row.trials[failures]);
    }
  }
}
