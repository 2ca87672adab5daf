#include "hailwright/evaluate/damage_bracket.hpp"

#include "hailwright/evaluate/assessment.hpp"
#include "support/catch.hpp"
#include "support/test_builder.hpp"

using namespace hailwright;
using hailwright::testing::seen;
using hailwright::testing::TestBuilder;

namespace {

std::optional<DamageBracket> bracket_of(const TestBuilder& b) {
  const Test test = b.build();
  return assess(test).bracket;
}

/// A look after a throw of the first series.
void look_after_throw(TestBuilder& b, int number, std::vector<Finding> saw = {}) {
  Look look;
  look.after = 0;
  look.after_throw = number;
  look.saw = std::move(saw);
  b.test.record.looks.push_back(look);
}

const std::vector<Finding> broken{seen("broken front", "place 2")};

}  // namespace

TEST_CASE("damage bracket: nothing seen leaves the upper end open") {
  TestBuilder b;
  b.look(0, {});
  const auto bracket = bracket_of(b);
  REQUIRE(bracket);
  REQUIRE(bracket->borne);
  CHECK(bracket->borne->bound < bracket->borne->estimate);
  CHECK_FALSE(bracket->damage_seen);
  CHECK_FALSE(bracket->damaged_by);
  CHECK_FALSE(bracket->overlapping());
}

TEST_CASE("damage bracket: one hit between two looks is told by itself") {
  TestBuilder b;
  b.no_looks_after();
  look_after_throw(b, 1);
  look_after_throw(b, 2, broken);
  const auto bracket = bracket_of(b);
  REQUIRE(bracket);
  REQUIRE((bracket->borne && bracket->damaged_by));
  CHECK(b.test.record.shots[bracket->borne->shot].number == 1);
  CHECK(b.test.record.shots[bracket->damaged_by->shot].number == 2);
  CHECK(bracket->hits_between == 1);
  CHECK(bracket->damaged_by->bound > bracket->damaged_by->estimate);
  // Hits of one series have the same energy: the one before did not do it.
  CHECK(bracket->overlapping());
  CHECK_FALSE(bracket->maybe_before);
}

TEST_CASE("damage bracket: a heavier ball after one that was borne leaves a bracket open") {
  TestBuilder b;
  b.no_looks_after();
  look_after_throw(b, 1);
  b.test.record.shots[1].mass = *b.test.record.shots[1].mass * 1.5;
  look_after_throw(b, 2, broken);
  const auto bracket = bracket_of(b);
  REQUIRE(bracket);
  REQUIRE((bracket->borne && bracket->damaged_by));
  CHECK(bracket->borne->estimate < bracket->damaged_by->estimate);
  CHECK_FALSE(bracket->overlapping());
}

TEST_CASE("damage bracket: several hits between two looks are not told apart") {
  TestBuilder b;
  b.no_looks_after();
  look_after_throw(b, 3, broken);
  const auto bracket = bracket_of(b);
  REQUIRE(bracket);
  CHECK_FALSE(bracket->borne);
  CHECK(bracket->hits_between == 3);
  CHECK(bracket->damaged_by);
  CHECK_FALSE(bracket->overlapping());
}

TEST_CASE("damage bracket: without a look at the start it may have been there") {
  TestBuilder b;
  b.no_looks_after();
  b.no_look_at_start();
  look_after_throw(b, 3, broken);
  const auto bracket = bracket_of(b);
  REQUIRE(bracket);
  CHECK(bracket->maybe_before);
}

TEST_CASE("damage bracket: nobody looked after a hit") {
  TestBuilder b;
  b.no_looks_after();
  CHECK_FALSE(bracket_of(b));
}

TEST_CASE("damage bracket: a hit of unknown energy is borne by no number and may have done it") {
  TestBuilder b;
  b.no_looks_after();
  for (const std::size_t i : {0U, 2U}) {
    b.test.record.shots[i].mass.reset();
    b.test.record.shots[i].diameters.clear();
  }
  look_after_throw(b, 2);
  const auto clean = bracket_of(b);
  REQUIRE((clean && clean->borne));
  CHECK(b.test.record.shots[clean->borne->shot].number == 2);
  look_after_throw(b, 3, broken);
  const auto broke = bracket_of(b);
  REQUIRE(broke);
  CHECK(broke->damage_seen);
  CHECK_FALSE(broke->damaged_by);
}

TEST_CASE("damage bracket: damage found without a hit since is of any of the hits before") {
  TestBuilder b;
  b.no_looks_after();
  look_after_throw(b, 3);
  look_after_throw(b, 3, broken);
  const auto bracket = bracket_of(b);
  REQUIRE(bracket);
  CHECK(bracket->hits_between == 0);
  CHECK(bracket->damaged_by);
  CHECK(bracket->borne);
}
