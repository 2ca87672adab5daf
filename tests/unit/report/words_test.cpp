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

// Z is followed by AA: there is no digit zero.
TEST_CASE("words: letters that count") {
  CHECK(letters_of(0) == "A");
  CHECK(letters_of(25) == "Z");
  CHECK(letters_of(26) == "AA");
  CHECK(letters_of(27) == "AB");
  CHECK(letters_of(52) == "BA");
  CHECK(letters_of(701) == "ZZ");
  CHECK(letters_of(702) == "AAA");  // 26 + 26 * 26
}

TEST_CASE("words: a first letter made large where it is one of the plain ones") {
  CHECK(capitalised("after large") == "After large");
  CHECK(capitalised("3 balls") == "3 balls");
  CHECK(capitalised("\xC3\xA9t\xC3\xA9") == "\xC3\xA9t\xC3\xA9");
  CHECK(capitalised("").empty());
}

// Found by review: a price of 1e300 had 301 digits, and one of a ten-millionth was told as 0.00.
TEST_CASE("words: money to the cent, and otherwise by its power of ten") {
  CHECK(money_text({89.0, "EUR"}) == "89.00 EUR");
  CHECK(money_text({0.0, "EUR"}) == "0.00 EUR");
  CHECK(money_text({0.005, "EUR"}) == "0.01 EUR");
  CHECK(money_text({9'999'999.0, "USD"}) == "9999999.00 USD");
  CHECK(money_text({1e300, "EUR"}) == "1.00e300 EUR");
  CHECK(money_text({1e-7, "EUR"}) == "1.00e-7 EUR");
}
