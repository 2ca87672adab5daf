#include "hailwright/evaluate/damage_threshold.hpp"

#include <algorithm>
#include <cmath>
#include <vector>

#include "support/catch.hpp"
#include "support/specimen_tests.hpp"

using namespace hailwright;
using namespace hailwright::testing;

namespace {

/// Levels of 6 J times 1.25^k by the rule.
Specimens staircase_of(const std::vector<int>& damaged) {
  std::vector<double> energies;
  int level = 0;
  for (const int one : damaged) {
    energies.push_back(6.0 * std::pow(1.25, level));
    level += one == 1 ? -1 : 1;
  }
  Specimens specimens = specimens_of(energies, damaged);
  specimens.staircase = StaircasePlan{{}, Energy::from_si(6.0), Ratio::from_si(0.25)};
  return specimens;
}

const std::vector<int> up_and_down{0, 1, 0, 0, 0, 1, 0, 0, 1, 1, 1, 0, 1,
                                   0, 1, 0, 0, 0, 1, 1, 0, 0, 1, 0, 1};

bool has(const DamageThreshold& t, ThresholdObstacle obstacle) {
  return std::find(t.obstacles.begin(), t.obstacles.end(), obstacle) != t.obstacles.end();
}

}  // namespace

TEST_CASE("damage threshold: an up and down test has its probit and its sums") {
  const DamageThreshold t = judge_threshold(staircase_of(up_and_down));
  CHECK(t.obstacles.empty());
  REQUIRE(t.estimate);
  CHECK(t.damaged == 11);
  CHECK(t.undamaged == 14);
  CHECK_THAT(std::log(t.estimate->e50.estimate.si()), WithinAbs(t.estimate->fit.location, 1e-12));
  CHECK(t.estimate->e10.estimate < t.estimate->e50.estimate);
  REQUIRE((t.estimate->e50.interval.low && t.estimate->e50.interval.high));
  CHECK(*t.estimate->e50.interval.low < t.estimate->e50.estimate);
  CHECK(*t.estimate->e50.interval.high > t.estimate->e50.estimate);
  REQUIRE(t.staircase);
  REQUIRE(t.staircase->e50);
  // The sums and the probit agree within a fifth of a step.
  CHECK_THAT(std::log((*t.staircase->e50 / t.estimate->e50.estimate).si()),
             WithinAbs(0.0, 0.2 * t.staircase->step));
}

TEST_CASE("damage threshold: the next level is one step on from the last test") {
  const Specimens specimens = staircase_of(up_and_down);
  const DamageThreshold t = judge_threshold(specimens);
  REQUIRE(t.staircase->next_level);
  CHECK_THAT(t.staircase->next_level->si(),
             WithinRel(specimens.tests.back().energy.si() / 1.25, 1e-12));
  Specimens first = specimens;
  first.tests.clear();
  CHECK_THAT(judge_threshold(first).staircase->next_level->si(), WithinRel(6.0, 1e-12));
  Specimens between = specimens;
  between.tests.back().energy = between.tests.back().energy * std::pow(1.25, 0.4);
  CHECK_FALSE(judge_threshold(between).staircase->next_level);
}

TEST_CASE("damage threshold: separated outcomes give a bracket and no estimate") {
  const DamageThreshold t = judge_threshold(specimens_of(
      {4.1, 5.2, 6.3, 7.1, 7.9, 9.4, 10.2, 11.6, 12.9, 14.3}, {0, 0, 0, 0, 0, 1, 1, 1, 1, 1}));
  CHECK_FALSE(t.estimate);
  CHECK(t.obstacles == std::vector{ThresholdObstacle::separated});
  CHECK(t.bracket.separated());
  CHECK(t.bracket.highest_undamaged->si() == 7.9);
  CHECK(t.bracket.lowest_damaged->si() == 9.4);
}

TEST_CASE("damage threshold: four of an outcome are too few and five are enough") {
  const std::vector<double> energies{5, 6, 7, 8, 9, 10, 11, 12, 13, 14};
  CHECK(has(judge_threshold(specimens_of(energies, {0, 0, 0, 0, 1, 0, 0, 1, 1, 1})),
            ThresholdObstacle::few_damaged));
  CHECK(has(judge_threshold(specimens_of(energies, {0, 0, 1, 0, 0, 1, 1, 1, 1, 1})),
            ThresholdObstacle::few_undamaged));
  const DamageThreshold enough =
      judge_threshold(specimens_of(energies, {0, 0, 1, 0, 0, 0, 1, 1, 1, 1}));
  CHECK(enough.obstacles.empty());
  CHECK(enough.estimate);
}

TEST_CASE("damage threshold: damage that does not become more frequent is no threshold") {
  const DamageThreshold t = judge_threshold(
      specimens_of({5, 6, 7, 8, 9, 10, 11, 12, 13, 14}, {1, 1, 0, 1, 1, 0, 1, 0, 0, 0}));
  CHECK_FALSE(t.estimate);
  CHECK(has(t, ThresholdObstacle::not_rising));
}

TEST_CASE("damage threshold: nothing was struck yet") {
  const DamageThreshold t = judge_threshold(Specimens{});
  CHECK_FALSE(t.estimate);
  CHECK_FALSE(t.lowest);
  CHECK_FALSE(t.bracket.separated());
}

// A rectangular half-width of 4 % is u = 4 %/sqrt(3); an energy from mass and speed counts the
// speed twice.
TEST_CASE("damage threshold: the stated error of the energies is carried along") {
  Specimens specimens = staircase_of(up_and_down);
  CHECK_FALSE(judge_threshold(specimens).doubt);
  specimens.energy_error = stated<Ratio>(Shape::rectangular, Ratio::from_si(0.04));
  const DamageThreshold t = judge_threshold(specimens);
  REQUIRE(t.doubt);
  CHECK_THAT(t.doubt->largest_u, WithinRel(0.04 / std::sqrt(3.0), 1e-12));
  CHECK_FALSE(t.doubt->notable());
  REQUIRE(t.estimate->e50.with_shared_error);
  const double estimate = t.estimate->fit.location;
  const double alone = std::log(t.estimate->e50.interval.high->si()) - estimate;
  const double shared = std::log(t.estimate->e50.with_shared_error->high->si()) - estimate;
  CHECK_THAT(shared, WithinRel(std::hypot(alone, 1.959963984540054 * t.doubt->largest_u), 1e-9));
  specimens.energy_error = stated<Ratio>(Shape::rectangular, Ratio::from_si(0.3));
  CHECK(judge_threshold(specimens).doubt->notable());

  SpecimenTest thrown;
  thrown.mass = Mass::from_si(0.010);
  thrown.speed = Speed::from_si(30.0);
  Specimens of_balls;
  CHECK_FALSE(log_energy_u(thrown, of_balls));
  of_balls.mass_error = stated<Mass>(Shape::normal, Ratio{}, Mass::from_si(0.0001));
  CHECK_FALSE(log_energy_u(thrown, of_balls));
  of_balls.speed_error = stated<Speed>(Shape::normal, Ratio::from_si(0.02));
  CHECK_THAT(log_energy_u(thrown, of_balls).value(), WithinRel(std::hypot(0.01, 0.04), 1e-12));
}

// Five of either outcome that hardly rise: a curve as good as flat puts no end to the energies.
TEST_CASE("damage threshold: an interval may have no end") {
  Specimens weak = specimens_of({6, 7, 8, 9, 10, 11, 12, 13, 14, 15, 16, 17},
                                {0, 1, 0, 1, 0, 0, 1, 1, 0, 1, 0, 1});
  weak.energy_error = Stated<Ratio>{};
  weak.energy_error->relative = percent(3);
  const DamageThreshold t = judge_threshold(weak);
  REQUIRE(t.estimate);
  CHECK_FALSE((t.estimate->e50.interval.low && t.estimate->e50.interval.high));
  CHECK_FALSE(t.estimate->e10.interval.low);
  REQUIRE(t.estimate->e10.with_shared_error);
  CHECK_FALSE(t.estimate->e10.with_shared_error->low);
  CHECK(t.estimate->e50.with_shared_error->high.has_value() ==
        t.estimate->e50.interval.high.has_value());
}
