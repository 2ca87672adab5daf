#include "hailwright/metrology/loss_decision.hpp"

#include <cmath>
#include <limits>

#include "support/catch.hpp"

using namespace hailwright;

namespace {

constexpr double infinite = std::numeric_limits<double>::infinity();

LossEstimate of(double loss, double u, double alpha = 0.025) {
  return estimate_loss(std::log1p(-loss), {u, infinite}, {0.0, infinite}, alpha);
}

}  // namespace

// MEASUREMENT M4: the same interval answers both questions.
TEST_CASE("answers of one interval") {
  const Ratio limit = percent(5);
  SECTION("beyond") {
    const LossAnswers a = decide_loss(of(0.12, 0.01), limit);
    CHECK(a.real == Answer::yes);
    CHECK(a.beyond == Answer::yes);
  }
  SECTION("real and within are both true at once") {
    const LossAnswers a = decide_loss(of(0.02, 0.005), limit);
    CHECK(a.real == Answer::yes);
    CHECK(a.beyond == Answer::no);
  }
  SECTION("within without a drop shown") {
    const LossAnswers a = decide_loss(of(0.005, 0.01), limit);
    CHECK(a.real == Answer::undecided);
    CHECK(a.beyond == Answer::no);
  }
  SECTION("neither") {
    const LossAnswers a = decide_loss(of(0.04, 0.03), limit);
    CHECK(a.real == Answer::undecided);
    CHECK(a.beyond == Answer::undecided);
  }
  SECTION("a gain is no pass") {
    // L = -6 % with u = 1 %: MEASUREMENT M5.
    const LossAnswers a = decide_loss(of(-0.06, 0.01), limit);
    CHECK(a.gained);
    CHECK(a.beyond == Answer::undecided);
  }
}

TEST_CASE("no absence is ever shown: real is yes or undecided") {
  for (double loss = -0.1; loss < 0.3; loss += 0.01) {
    for (const double u : {0.001, 0.01, 0.1}) {
      CAPTURE(loss, u);
      CHECK(decide_loss(of(loss, u), percent(5)).real != Answer::no);
    }
  }
}

// JCGM 106:2012: case decision_62_5, decision_30_8, decision_50_10 (computed, normal). They are
// stated in L; ours is made in lambda, so the bounds are moved there.
TEST_CASE("probability above a limit") {
  const auto above = [](double loss, double u) {
    const double z = (0.05 - loss) / u;
    LossEstimate e = estimate_loss(0.0, {u, infinite}, {0.0, infinite}, 0.025);
    e.lambda = std::log1p(-0.05) + z * u;
    return e.probability_above(percent(5));
  };
  CHECK_THAT(above(0.062, 0.005), WithinAbs(0.9918024640754038, 1e-9));
  CHECK_THAT(above(0.030, 0.008), WithinAbs(0.006209665325776123, 1e-9));
  CHECK_THAT(above(0.050, 0.010), WithinAbs(0.5, 1e-12));
}

// MEASUREMENT M2: u_A = u_B = 0.81, nu_A = 2 gives 2.64 by Welch-Satterthwaite alone and 3.49 from
// the type A part alone; the wider one holds.
TEST_CASE("a type B part never narrows the interval") {
  const double u = 0.81;
  const double both[] = {u, u};
  const double dof[] = {2, infinite};
  const Combined all{std::hypot(u, u), welch_satterthwaite(both, dof)};
  const LossEstimate e = estimate_loss(0.0, all, {u, 2}, 0.025);
  CHECK_THAT(e.expanded, WithinAbs(3.485, 0.0005));
  CHECK(e.expanded >= estimate_loss(0.0, {u, 2}, {u, 2}, 0.025).expanded);
}

TEST_CASE("the smallest loss shown is larger than the one called real") {
  const Combined all{0.01, 6};
  const LossEstimate e = estimate_loss(0.0, all, all, 0.025);
  CHECK(smallest_shown_loss(all, all, 0.025, 0.1) > e.real_above());
  // delta* at nu = 6 is 3.913 (MEASUREMENT M4).
  CHECK_THAT(smallest_shown_loss(all, all, 0.025, 0.1).si(),
             WithinAbs(-std::expm1(-0.03913), 5e-6));
}
