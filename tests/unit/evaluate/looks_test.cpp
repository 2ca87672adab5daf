#include "evaluate/looks.hpp"

#include "support/catch.hpp"
#include "support/test_builder.hpp"

using namespace hailwright;
using hailwright::testing::seen;
using hailwright::testing::TestBuilder;

namespace {
Look after(std::size_t series, std::vector<Finding> saw = {}) {
  Look l;
  l.after = series;
  l.saw = std::move(saw);
  return l;
}
}  // namespace

TEST_CASE("looks: the first look after a series answers for it, back to the look before") {
  Record r;
  r.looks = {after(1), after(3)};
  const LookFor zero = look_for(r, 0);
  CHECK(zero.look == 0U);
  CHECK(zero.covers.first == 0);
  CHECK(zero.covers.last == 1);
  const LookFor three = look_for(r, 3);
  CHECK(three.look == 1U);
  CHECK(three.covers.first == 2);
  CHECK_FALSE(look_for(Record(), 0).look.has_value());
  CHECK_FALSE(look_at_start(r).has_value());
}

TEST_CASE("looks: a thing is new once") {
  Record r;
  r.looks = {after(1, {seen("broken front", "left"), seen("chip", "corner")}),
             after(0, {seen("broken front", "left")})};
  const auto found = new_findings(r);
  REQUIRE(found.size() == 2);
  CHECK(found[0].look == 1);  // the earlier look comes first, however it is written
  CHECK(found[0].major);
  CHECK(found[1].finding->kind->word == "chip");
}

TEST_CASE("looks: a crack that grew past its share is new damage") {
  Record r;
  Finding small = seen("cell crack", "cell 3");
  small.share = percent(5);
  Finding grown = small;
  grown.share = percent(20);
  r.looks = {after(0, {small}), after(1, {grown})};
  const auto found = new_findings(r);
  REQUIRE(found.size() == 2);
  CHECK_FALSE(found[0].major);
  CHECK(found[1].major);
}

namespace {

/// Two series of two throws each, numbered on.
Record four_throws() {
  Record r;
  for (int number = 1; number <= 4; ++number) {
    Shot shot;
    shot.number = number;
    shot.series = number <= 2 ? 0 : 1;
    r.shots.push_back(shot);
  }
  return r;
}

Look after_throw(int number, std::vector<Finding> saw = {}) {
  Look l = after(number <= 2 ? 0 : 1, std::move(saw));
  l.after_throw = number;
  return l;
}

Look at_start() {
  Look l;
  l.start = true;
  return l;
}

}  // namespace

TEST_CASE("looks: those between throws stand in their order, whatever the file's") {
  Record r = four_throws();
  r.looks = {after(1), after(0), after_throw(3), after_throw(1), at_start()};
  CHECK(looks_in_order(r) == std::vector<std::size_t>{4, 3, 1, 2, 0});
  const Moment second{1, 3};
  CHECK(second.is_after(r.shots[1]));
  CHECK(second.is_after(r.shots[2]));
  CHECK_FALSE(second.is_after(r.shots[3]));
}

TEST_CASE("looks: a look between throws answers for no series of its own") {
  Record r = four_throws();
  r.looks = {after_throw(1), after(0), after_throw(3), after(1)};
  const LookFor first = look_for(r, 0);
  CHECK(first.look == 1U);
  CHECK(first.between == std::vector<std::size_t>{0});
  CHECK_FALSE(first.covers.joint());
  const LookFor second = look_for(r, 1);
  CHECK(second.look == 3U);
  CHECK(second.between == std::vector<std::size_t>{2});
  CHECK(second.covers.first == 1);
}

TEST_CASE("looks: a look after the last throw of a series is one after the series") {
  Record r = four_throws();
  r.looks = {after_throw(2), after_throw(3)};
  CHECK(look_for(r, 0).look == 0U);
  const LookFor open = look_for(r, 1);
  CHECK_FALSE(open.look.has_value());
  CHECK(open.between == std::vector<std::size_t>{1});
}

// The first throws of the next series had been made: what is seen may be theirs.
TEST_CASE("looks: without one after the series the next one between throws answers for both") {
  Record r = four_throws();
  r.looks = {after_throw(3), after(1)};
  const LookFor first = look_for(r, 0);
  CHECK(first.look == 0U);
  CHECK(first.covers.last == 1);
  const LookFor second = look_for(r, 1);
  CHECK(second.look == 1U);
  CHECK(second.covers.first == 1);
}

TEST_CASE("looks: after a stress that followed all hail one answers for all that was thrown") {
  Record r = four_throws();
  StressDone done;
  done.after_hail = true;
  r.stresses = {done};
  Look after_stress;
  after_stress.after_stress = 0;
  r.looks = {at_start(), after_stress};
  const LookFor first = look_for(r, 0);
  CHECK(first.look == 1U);
  CHECK(first.covers.first == 0);
  CHECK(first.covers.last == 1);
}

TEST_CASE("looks: things are told apart by their kind and by where they are") {
  Record r;
  r.looks = {at_start(), after(0, {seen("broken front", "right"), seen("broken back", "left")})};
  r.looks[0].saw = {seen("broken front", "left")};
  CHECK(new_findings(r).size() == 2);
  r.looks[0].saw.push_back(seen("broken front", "top"));
  r.looks[0].saw.push_back(seen("broken back", "top"));
  CHECK(defects_from_start(r).size() == 3);
}

TEST_CASE("looks: what was seen between throws is not new after the series") {
  Record r = four_throws();
  r.looks = {after(0, {seen("broken front", "left")}),
             after_throw(1, {seen("broken front", "left")})};
  const auto found = new_findings(r);
  REQUIRE(found.size() == 1);
  CHECK(found[0].look == 1);
}

TEST_CASE("looks: major defects of the look at the start, each once") {
  TestBuilder b;
  b.test.record.looks.front().saw = {seen("broken front", "corner"), seen("scuff", "left"),
                                     seen("cell crack", "left"), seen("broken front", "corner")};
  b.look(0, {seen("broken box", "back")});
  const Test test = b.build();
  const auto defects = defects_from_start(test.record);
  REQUIRE(defects.size() == 1);
  CHECK(defects[0]->where == "corner");
  CHECK(defects_from_start(TestBuilder().build().record).empty());
}
