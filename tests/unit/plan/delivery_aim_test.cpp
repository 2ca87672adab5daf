// Where to aim, by simulation through the rule that judge applies (MEASUREMENT M10, M13). The
// expected figures come from closed forms and from integrals computed outside the program; the
// tolerance is four standard errors of a simulated share, sqrt(p (1 - p) / series): one in 16 000
// such checks fails by chance.
#include "hailwright/plan/delivery_aim.hpp"

#include <algorithm>
#include <cmath>

#include "hailwright/core/contract.hpp"
#include "hailwright/evaluate/delivery.hpp"
#include "hailwright/metrology/distributions.hpp"
#include "support/catch.hpp"

using namespace hailwright;

namespace {

double four_errors(double p, int series) {
  return 4.0 * std::sqrt(p * (1.0 - p) / series);
}

/// Eleven shots, 2 % scatter of the launcher, 2 % uncertainty of each measured speed: the case that
/// is the reason of M10. Masses are exact.
DeliveryQuestion eleven_shots() {
  DeliveryQuestion q;
  q.places = 11;
  q.launcher_scatter = 0.02;
  q.speed_own_u = 0.02;
  q.each_shot_measured = true;
  return q;
}

/// A plausible home test: trial shots by video, ten balls weighed together.
DeliveryQuestion home_test() {
  DeliveryQuestion q;
  q.places = 11;
  q.launcher_scatter = 0.02;
  q.speed_shared_u = 0.01;
  q.speed_own_u = 0.014;
  q.speed_hit_u = 0.004;
  q.trials = 10;
  q.mass_scatter = 0.02;
  q.mass_shared_u = 0.006;
  q.mass_own_u = 0.007;
  return q;
}

}  // namespace

// M10: "two-sided guarded acceptance with 2 % launcher scatter and 2 % u delivers all 11 places in
// 0.02 % of tests though truly in tolerance in 87 %". The text does not say how the 2 % split into
// what the shots share and what is their own. Integrals over the true speed (Python 3.11, midpoint
// rule, 4000 points), with u a share of the reading as in judge, give for all shown within
//   all own: 0.01733 %   half of the variance shared: 0.0338 %   all shared: 0.1363 %
// so that the text means errors of each shot's own. 87 % is truly within both sides,
// (2 Phi(2.5) - 1)^11 = 0.87156; truly not below, Phi(2.5)^11, is 0.93378.
TEST_CASE("delivery_aim: the reason of M10, each shot with its own error") {
  constexpr int series = 300'000;
  const DeliveryChance c = delivery_chance(eleven_shots(), 1.0, 1.0, series);
  CHECK_THAT(c.within, WithinAbs(0.00017330, four_errors(0.00017330, series)));
  CHECK_THAT(c.shown, WithinAbs(0.0326525, four_errors(0.0326525, series)));
  CHECK_THAT(c.truly_within, WithinAbs(0.8715622, four_errors(0.8715622, series)));
  CHECK_THAT(c.truly, WithinAbs(0.9337755, four_errors(0.9337755, series)));
  // As the text prints it; its 0.02 % are the 0.01733 % above.
  CHECK(std::round(c.truly_within * 100) == 87);
}

TEST_CASE("delivery_aim: the same errors shared by all shots") {
  DeliveryQuestion q = eleven_shots();
  std::swap(q.speed_shared_u, q.speed_own_u);
  constexpr int series = 100'000;
  const DeliveryChance c = delivery_chance(q, 1.0, 1.0, series);
  CHECK_THAT(c.within, WithinAbs(0.0013633, four_errors(0.0013633, series)));
  CHECK_THAT(c.shown, WithinAbs(0.2673932, four_errors(0.2673932, series)));
}

// The same integral with the true mean moved: 1.02 gives 0.33399, 1.04 gives 0.76757, 1.05 gives
// 0.89082. So 0.80 lies between 1.04 and 1.05: 1.045.
TEST_CASE("delivery_aim: measured shots are aimed at 1.045 of the speed") {
  for (const auto& [aim, shown] :
       {std::pair{1.02, 0.3339902}, std::pair{1.04, 0.7675676}, std::pair{1.05, 0.8908177}}) {
    CAPTURE(aim);
    CHECK_THAT(delivery_chance(eleven_shots(), aim, 1.0).shown,
               WithinAbs(shown, four_errors(shown, delivery_series)));
  }
  const DeliveryAim found = find_delivery_aim(eleven_shots());
  CHECK(found.reached);
  CHECK_THAT(found.speed_aim, WithinAbs(1.045, 1e-12));
  CHECK(found.mass_aim == 1.0);
  CHECK_FALSE(found.help.has_value());
}

// Trials alone: mean - t s sqrt(1 + 1/n) >= 0.95/aim is a non-central t with n - 1 degrees of
// freedom and noncentrality (1 - 0.95/aim) sqrt(n)/sigma, at or above t sqrt(n + 1).
TEST_CASE("delivery_aim: trial shots against the non-central t") {
  for (const int n : {5, 6, 10, 20}) {
    for (const double aim : {1.0, 1.02, 1.05}) {
      CAPTURE(n, aim);
      DeliveryQuestion q;
      q.places = 11;
      q.launcher_scatter = 0.03;
      q.trials = n;
      const double effect = (1.0 - 0.95 / aim) * std::sqrt(n) / q.launcher_scatter;
      const double at = t_quantile(0.95, n - 1.0) * std::sqrt(n + 1.0);
      const double shown = 1.0 - noncentral_t_cdf(at, n - 1.0, effect);
      CHECK_THAT(delivery_chance(q, aim, 1.0).shown,
                 WithinAbs(shown, four_errors(shown, delivery_series)));
    }
  }
}

// Five trials whose only scatter is that of their counting, 2 %: whole frames agree by chance, so
// it is never taken below the step (M13). Integrals over chi with 4 degrees of freedom
// (Python 3.11): 0.48889 at the grade; without the floor it would be 0.64481.
TEST_CASE("delivery_aim: trials that agree by chance keep the scatter of their counting") {
  DeliveryQuestion q;
  q.speed_own_u = 0.02;
  q.trials = 5;
  for (const auto& [aim, shown] : {std::pair{1.0, 0.4888911}, std::pair{1.02, 0.9034494}}) {
    CAPTURE(aim);
    CHECK_THAT(delivery_chance(q, aim, 1.0).shown,
               WithinAbs(shown, four_errors(shown, delivery_series)));
  }
}

// The angle of a hit is not in any measured speed: it widens the guard, moves the true speed, and
// leaves the readings alone.
TEST_CASE("delivery_aim: what a hit has to itself beside its measurement") {
  DeliveryQuestion q;
  q.speed_own_u = 0.01;
  q.speed_hit_u = 0.02;
  q.each_shot_measured = true;
  const double least = 0.95 / (1.0 - normal_quantile(0.95) * std::hypot(0.01, 0.02));
  const double shown = normal_cdf((1.0 - least) / 0.01);
  const DeliveryChance measured = delivery_chance(q, 1.0, 1.0);
  CHECK_THAT(measured.shown, WithinAbs(shown, four_errors(shown, delivery_series)));
  const double truly = normal_cdf(2.5);
  CHECK_THAT(measured.truly, WithinAbs(truly, four_errors(truly, delivery_series)));
  // Exact trials leave the guard to the hit alone. As judge has it, the five trials' four degrees
  // of freedom go with it, t = 2.1318 (any table): 0.95 / (1 - 2.1318 * 0.02) = 0.9923.
  q.speed_own_u = 0.0;
  q.each_shot_measured = false;
  q.trials = 5;
  CHECK(delivery_chance(q, 0.992, 1.0).shown == 0.0);
  CHECK(delivery_chance(q, 0.993, 1.0).shown == 1.0);
  CHECK_THAT(delivery_chance(q, 1.0, 1.0).truly,
             WithinAbs(truly, four_errors(truly, delivery_series)));
}

// Ten balls at once: one normal mean with scatter/sqrt(10) and the scales' error, against the
// guard of 1.645 times everything.
TEST_CASE("delivery_aim: balls weighed together against the normal distribution") {
  DeliveryQuestion q;
  q.each_shot_measured = true;
  q.mass_scatter = 0.02;
  q.mass_shared_u = 0.01;
  const double of_mean = std::hypot(0.01, 0.02 / std::sqrt(10.0));
  const double u = std::hypot(of_mean, 0.02);
  for (const double aim : {0.99, 1.0, 1.01}) {
    CAPTURE(aim);
    const double least = 0.95 / (1.0 - normal_quantile(0.95) * u) / aim;
    const double shown = normal_cdf((1.0 - least) / of_mean);
    CHECK_THAT(delivery_chance(q, 1.0, aim).shown,
               WithinAbs(shown, four_errors(shown, delivery_series)));
  }
}

// What melts and what the moulds scatter are both in the true mass: 0.05 over hypot(0.02, 0.015).
TEST_CASE("delivery_aim: the true masses of balls weighed together") {
  DeliveryQuestion q;
  q.each_shot_measured = true;
  q.mass_scatter = 0.02;
  q.mass_own_u = 0.015;
  const double truly = normal_cdf(2.0);
  CHECK_THAT(delivery_chance(q, 1.0, 1.0).truly,
             WithinAbs(truly, four_errors(truly, delivery_series)));
}

// A ball whose reading is in the window is light all the same sometimes. Integral over the true
// mass (Python 3.11, midpoint rule): 0.997810 for one ball, its third power for three.
TEST_CASE("delivery_aim: the true masses of balls that were chosen") {
  DeliveryQuestion q;
  q.places = 3;
  q.each_shot_measured = true;
  q.each_ball_weighed = true;
  q.mass_scatter = 0.03;
  q.mass_own_u = 0.02;
  const DeliveryChance c = delivery_chance(q, 1.0, find_delivery_aim(q).mass_aim);
  CHECK_THAT(c.truly, WithinAbs(0.993445, four_errors(0.993445, delivery_series)));
  CHECK(c.shown == 1.0);
  CHECK(c.within == 1.0);
}

// The simulation judges the lowest and the highest hit of a series in place of each: the rule must
// therefore be monotone in the value, and it must be that of compare_hit.
TEST_CASE("delivery_aim: the rule on one quantity is that of a hit, and monotone") {
  Target target;
  target.diameter = Length::from_si(0.025);
  target.mass = Mass::from_si(1.0);
  target.speed = Speed::from_si(1.0);
  ShotResult hit;
  hit.diameter = target.diameter;
  hit.mass = ShotQuantity{1.0, 0.0, 0.0};
  bool weaker_before = true;
  bool stronger_before = false;
  for (int i = 0; i <= 40; ++i) {
    ShotQuantity speed{0.9 + 0.005 * i, 0.01, 0.015};
    speed.own_dof = 4.0;
    hit.speed = speed;
    const HitSides one = compare_quantity(speed, target.speed, percent(5));
    const HitSides whole = compare_hit(hit, target, percent(5));
    CHECK(one.not_weaker == whole.not_weaker);
    CHECK(one.not_stronger == whole.not_stronger);
    CHECK((one.not_weaker || weaker_before));  // once shown, always shown
    CHECK_FALSE((one.not_stronger && stronger_before));
    weaker_before = !one.not_weaker;
    stronger_before = !one.not_stronger;
  }
  CHECK_FALSE(weaker_before);
  CHECK(stronger_before);
  hit.speed->supports_grade = false;
  CHECK_FALSE(compare_quantity(*hit.speed, target.speed, percent(5)).not_weaker);
}

TEST_CASE("delivery_aim: a home test aims a little high, and more trials need less of it") {
  double before = 2.0;
  for (const int trials : {5, 6, 10, 20}) {
    CAPTURE(trials);
    DeliveryQuestion q = home_test();
    q.trials = trials;
    const DeliveryAim aim = find_delivery_aim(q);
    CHECK(aim.reached);
    CHECK(aim.chance.shown >= 0.8);
    const double energy = aim.speed_aim * aim.speed_aim * aim.mass_aim;
    CHECK(energy <= before);
    before = energy;
  }
  CHECK(before > 1.0);
}

// The same series meet every aim, so that a smaller step of either aim must fall short.
TEST_CASE("delivery_aim: no pair of aims with less energy reaches the chance") {
  // At 3 % of both scatters the slowest pair that reaches it, 1.035 and 1.030, has more energy.
  DeliveryQuestion q = home_test();
  q.mass_scatter = GENERATE(0.02, 0.03);
  q.launcher_scatter = q.mass_scatter;
  CAPTURE(q.mass_scatter);
  const DeliveryAim aim = find_delivery_aim(q);
  REQUIRE(aim.reached);
  const double energy = aim.speed_aim * aim.speed_aim * aim.mass_aim;
  int looked_at = 0;
  for (int m = 0; m <= 10; ++m) {
    const double mass = 1.0 + 0.005 * m;
    // The fastest step below that energy; slower ones show less.
    const double most = std::sqrt((energy - 1e-9) / mass);
    if (most < 1.0) continue;
    const double speed = 1.0 + 0.005 * std::floor((most - 1.0) / 0.005);
    CAPTURE(speed, mass);
    CHECK(delivery_chance(q, speed, mass).shown < 0.8);
    ++looked_at;
  }
  CHECK(looked_at >= 5);
}

TEST_CASE("delivery_aim: fewer than five trials show nothing, and ten help") {
  DeliveryQuestion q = home_test();
  for (const int trials : {0, 1, 2, 4}) {
    CAPTURE(trials);
    q.trials = trials;
    const DeliveryAim aim = find_delivery_aim(q);
    CHECK_FALSE(aim.reached);
    CHECK(aim.chance.shown == 0.0);
    CHECK(aim.help == DeliveryHelp::more_trials);
    CHECK(aim.help_chance.value_or(0.0) > 0.8);
  }
}

TEST_CASE("delivery_aim: what helps is what is bad") {
  DeliveryQuestion q = home_test();
  q.speed_shared_u = 0.08;
  const DeliveryAim speed = find_delivery_aim(q);
  CHECK_FALSE(speed.reached);
  CHECK(speed.speed_aim == largest_speed_aim);
  CHECK(speed.help == DeliveryHelp::better_speed);
  CHECK(*speed.help_chance > speed.chance.shown);

  q = home_test();
  q.trials = 20;
  q.launcher_scatter = 0.12;
  CHECK(find_delivery_aim(q).help == DeliveryHelp::steadier_launcher);

  q = home_test();
  q.mass_shared_u = 0.08;
  CHECK(find_delivery_aim(q).help == DeliveryHelp::better_scales);
}

// Found by this test: half of the value as uncertainty drew masses below zero, whose negative
// uncertainty then "showed" them to be heavy enough.
TEST_CASE("delivery_aim: nothing helps where no single thing is enough to show anything") {
  DeliveryQuestion q = home_test();
  q.mass_shared_u = 0.5;
  q.speed_shared_u = 0.5;
  const DeliveryAim aim = find_delivery_aim(q);
  CHECK(aim.chance.shown == 0.0);
  CHECK_FALSE(aim.help.has_value());
  CHECK_FALSE(aim.help_chance.has_value());
}

TEST_CASE("delivery_aim: balls weighed one by one are chosen, and their scatter is gone") {
  DeliveryQuestion q = home_test();
  q.mass_scatter = 0.05;
  const DeliveryAim together = find_delivery_aim(q);
  q.each_ball_weighed = true;
  const DeliveryAim chosen = find_delivery_aim(q);
  CHECK(chosen.reached);
  CHECK(chosen.speed_aim * chosen.speed_aim * chosen.mass_aim <
        together.speed_aim * together.speed_aim * together.mass_aim);
  CHECK(chosen.chance.truly > together.chance.truly);
  // 4 % scales leave a narrow window above the nominal mass, and 20 % ones none.
  q.mass_shared_u = 0.04;
  CHECK(find_delivery_aim(q).mass_aim > 1.02);
  q.mass_shared_u = 0.2;
  CHECK(find_delivery_aim(q).chance.without_balls == 1.0);
}

TEST_CASE("delivery_aim: the mass never takes the diameter out of its tolerance") {
  DeliveryQuestion q = home_test();
  q.tolerance = percent(2);
  q.mass_scatter = 0.05;
  CHECK(find_delivery_aim(q).mass_aim <= 1.02);
}

TEST_CASE("delivery_aim: the same question, the same answer") {
  const DeliveryChance a = delivery_chance(home_test(), 1.02, 1.01);
  const DeliveryChance b = delivery_chance(home_test(), 1.02, 1.01);
  CHECK(a.shown == b.shown);
  CHECK(a.truly == b.truly);
  CHECK(find_delivery_aim(home_test()).chance.shown == find_delivery_aim(home_test()).chance.shown);
}

TEST_CASE("delivery_aim: no uncertainty at all") {
  DeliveryQuestion q;
  q.each_shot_measured = true;
  const DeliveryAim aim = find_delivery_aim(q);
  CHECK(aim.speed_aim == 1.0);
  CHECK(aim.mass_aim == 1.0);
  CHECK(aim.chance.within == 1.0);
  CHECK(delivery_chance(q, 0.94, 1.0).shown == 0.0);
  CHECK(delivery_chance(q, 1.06, 1.0).within == 0.0);
  CHECK(delivery_chance(q, 1.06, 1.0).shown == 1.0);
}

TEST_CASE("delivery_aim: promises of the caller") {
  DeliveryQuestion q;
  CHECK_THROWS_AS(delivery_chance(q, 0.0, 1.0), BugError);
  CHECK_THROWS_AS(find_delivery_aim(q, 1.0), BugError);
  q.places = 0;
  CHECK_THROWS_AS(find_delivery_aim(q), BugError);
  q.places = 1;
  q.launcher_scatter = -0.1;
  CHECK_THROWS_AS(find_delivery_aim(q), BugError);
}
