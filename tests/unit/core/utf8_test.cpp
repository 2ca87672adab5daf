#include "core/utf8.hpp"

#include "hailwright/core/contract.hpp"
#include "support/catch.hpp"

using hailwright::detail::steers;
using hailwright::detail::utf8_at;
using hailwright::detail::without_steering;

TEST_CASE("utf8: characters of one to four bytes") {
  const std::string text = "aé€𝄞";
  CHECK(utf8_at(text, 0).code == U'a');
  CHECK(utf8_at(text, 1).code == U'é');
  CHECK(utf8_at(text, 3).code == U'€');
  CHECK(utf8_at(text, 6).code == U'𝄞');
  CHECK(utf8_at(text, 6).size == 4);
  CHECK_THROWS_AS(utf8_at(text, text.size()), hailwright::BugError);
}

TEST_CASE("utf8: what is not well formed") {
  // The Unicode Standard, table 3-7 (from memory): no lead, overlong, surrogate, too large, cut
  // short.
  const std::string bytes = GENERATE(as<std::string>{}, "\x80", "\xC1\xBF", "\xE0\x9F\xBF",
                                     "\xED\xA0\x80", "\xF0\x8F\xBF\xBF", "\xF4\x90\x80\x80",
                                     "\xF5\x80\x80\x80", "\xFF", "\xE2\x82", "\xE2\x82z", "\xC3");
  CAPTURE(bytes);
  CHECK(utf8_at(bytes, 0).size == 0);
}

TEST_CASE("utf8: what steers a terminal or the direction of writing") {
  for (const char32_t code :
       {0x00U, 0x07U, 0x1BU, 0x7FU, 0x85U, 0x9BU, 0x202AU, 0x202EU, 0x2066U, 0x2069U, 0x0AU})
    CHECK(steers(code));
  for (const char32_t code : {0x20U, 0x7EU, 0xA0U, 0xE9U, 0x2029U, 0x202FU, 0x2065U, 0x206AU})
    CHECK_FALSE(steers(code));
}

TEST_CASE("utf8: one line for people") {
  CHECK(without_steering("Panel ü, 25 °C") == "Panel ü, 25 °C");
  CHECK(without_steering("a\tb\nc\x1b[31m") == "a b?c?[31m");
  CHECK(without_steering("\u202Ered\u009B\xFF") == "?red??");
  CHECK(without_steering("").empty());
}
