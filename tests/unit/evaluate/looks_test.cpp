#include "evaluate/looks.hpp"

#include "support/catch.hpp"
#include "support/test_builder.hpp"

using namespace hailwright;
using hailwright::testing::seen;

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
  const LookFor zero = look_for(r, 0, 4);
  CHECK(zero.look == 0U);
  CHECK(zero.covers.first == 0);
  CHECK(zero.covers.last == 1);
  const LookFor three = look_for(r, 3, 4);
  CHECK(three.look == 1U);
  CHECK(three.covers.first == 2);
  CHECK_FALSE(look_for(Record(), 0, 1).look.has_value());
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
