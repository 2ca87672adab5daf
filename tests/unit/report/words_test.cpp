#include "report/words.hpp"

#include "support/catch.hpp"

using namespace hailwright;

TEST_CASE("words: lists and counts") {
  CHECK(enumerate({}).empty());
  CHECK(enumerate({"a"}) == "a");
  CHECK(enumerate({"a", "b"}) == "a and b");
  CHECK(enumerate({"a", "b", "c"}) == "a, b and c");
  CHECK(counted(1, "miss") == "1 miss");
  CHECK(counted(2, "miss") == "2 misses");
  CHECK(counted(0, "day") == "0 days");
}

TEST_CASE("words: numbers without trailing zeros") {
  CHECK(plain_number(25.0, 5) == "25");
  CHECK(plain_number(7.53, 5) == "7.53");
  CHECK(plain_number(0.94, 5) == "0.94");
  CHECK(plain_number(132.0, 4) == "132");
  CHECK(plain_number(95.0, 3) == "95");
}
