#include "hailwright/metrology/loss_decision.hpp"

#include <algorithm>
#include <cmath>
#include <limits>

#include "hailwright/metrology/random.hpp"
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

TEST_CASE("a loss fits a number however little is known of it") {
  // 1 - e^(lambda + U) was -inf, and then nothing could be printed.
  const LossEstimate wild{0.1, 1e5, 4.0, 3e5, 0.025};
  CHECK(std::isfinite(wild.low().si()));
  CHECK(wild.low().si() < -1e20);
  CHECK(wild.high().si() == 1.0);
  CHECK(std::isfinite(wild.real_above().si()));
  CHECK(std::isfinite(LossEstimate{800.0, 1.0, 4.0, 3.0, 0.025}.u_loss().si()));
  CHECK(loss_at(-0.05) == -std::expm1(-0.05));
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
  CHECK_THAT(e.expanded, WithinAbs(3.485, 0.0005));  // 3.49 in two decimals
  CHECK(e.expanded >= estimate_loss(0.0, {u, 2}, {u, 2}, 0.025).expanded);
}

// MEASUREMENT M4: the estimate alone; a gain is no answer (M5).
TEST_CASE("simple acceptance") {
  CHECK(decide_simply(of(0.0501, 0.02), percent(5)) == Answer::yes);
  CHECK(decide_simply(of(0.05, 0.02), percent(5)) == Answer::no);
  CHECK(decide_simply(of(-0.01, 0.02), percent(5)) == Answer::no);
  CHECK(decide_simply(of(-0.06, 0.01), percent(5)) == Answer::undecided);
}

// Its risk: with a true loss at the limit the estimate lies on either side in half of all tests.
TEST_CASE("simple acceptance is wrong up to half of the time") {
  RandomStream random(3);
  constexpr int tests = 20'000;
  int beyond = 0;
  for (int i = 0; i < tests; ++i) {
    LossEstimate e = of(0.05, 0.01);
    e.lambda += 0.01 * random.normal();
    beyond += decide_simply(e, percent(5)) == Answer::yes ? 1 : 0;
  }
  CHECK_THAT(beyond / static_cast<double>(tests), WithinAbs(0.5, 0.015));
}

// MEASUREMENT M7: where two methods differ nobody answers; the deciding one says what was gained.
TEST_CASE("two methods agree or the answer is open") {
  const LossAnswers within{Answer::yes, Answer::no, false};
  const LossAnswers open{Answer::yes, Answer::undecided, false};
  const LossAnswers beyond{Answer::yes, Answer::yes, false};
  CHECK(agreed(within, within) == within);
  CHECK(agreed(within, open) == open);
  CHECK(agreed(open, within) == open);
  CHECK(agreed(within, beyond) == open);
  CHECK(agreed({Answer::undecided, Answer::no, false}, within).real == Answer::undecided);
  const LossAnswers gained{Answer::undecided, Answer::undecided, true};
  CHECK_FALSE(agreed(within, gained).gained);
  CHECK(agreed(gained, within).gained);
}

// R 4.2.2, run here: 1 - pt(qt(0.975, nu), nu, ncp), and with nu = Inf pnorm(ncp - qnorm(0.975)).
TEST_CASE("chance that an interval clears a bound") {
  const auto chance = [](double ncp, double nu) {
    return chance_cleared({0.01, nu}, {0.0, infinite}, 0.025, 0.01 * ncp);
  };
  CHECK_THAT(chance(3.0, 6.0), WithinAbs(0.70670982525, 1e-9));
  CHECK_THAT(chance(5.0, 2.5), WithinAbs(0.834395648708, 1e-9));
  CHECK_THAT(chance(3.0, infinite), WithinAbs(0.850838415796, 1e-9));
  CHECK_THAT(chance(0.0, 6.0), WithinAbs(0.025, 1e-9));
  CHECK_THAT(chance(-1.0, 6.0), WithinAbs(0.00237856911813, 1e-9));
  CHECK(chance(-1e4, 6.0) == 0.0);
  // Both conditions of M2 must hold: the smaller chance.
  const Combined all{0.01, 40.0};
  const Combined observed{0.008, 2.0};
  const Combined none{0.0, infinite};
  CHECK(chance_cleared(all, observed, 0.025, 0.03) ==
        std::min(chance_cleared(all, none, 0.025, 0.03),
                 chance_cleared(observed, none, 0.025, 0.03)));
  CHECK(chance_cleared(none, none, 0.025, 0.01) == 1.0);
  CHECK(chance_cleared(none, none, 0.025, -0.01) == 0.0);
}

TEST_CASE("the smallest loss shown is larger than the one called real") {
  const Combined all{0.01, 6};
  const LossEstimate e = estimate_loss(0.0, all, all, 0.025);
  CHECK(smallest_shown_loss(all, all, 0.025, 0.1) > e.real_above());
  // delta* at nu = 6 is 3.913 (MEASUREMENT M4).
  CHECK_THAT(smallest_shown_loss(all, all, 0.025, 0.1).si(),
             WithinAbs(-std::expm1(-0.03913), 5e-6));
}

// One scatter taken smaller and larger gives what each of them gives by itself.
TEST_CASE("the smallest losses shown for other sizes of the scatter") {
  const Combined observed{0.004, 6.0};
  const Combined rest{0.003, 50.0};
  constexpr double factors[] = {1.0, 0.7, 1.9};
  const auto shown = smallest_shown_losses(observed, rest, factors, 0.025, 0.1);
  REQUIRE(shown.size() == 3);
  for (std::size_t i = 0; i < 3; ++i) {
    const Combined scaled{observed.standard_u * factors[i], observed.degrees_of_freedom};
    CHECK(shown[i] == smallest_shown_loss(combine(scaled, rest), scaled, 0.025, 0.1));
  }
  constexpr double alone[] = {1.0};
  CHECK(smallest_shown_losses({0.0, infinite}, rest, alone, 0.025, 0.1).at(0) ==
        smallest_shown_loss(rest, {0.0, infinite}, 0.025, 0.1));
}
