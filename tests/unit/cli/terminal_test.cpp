#include "cli/terminal.hpp"

#include "support/catch.hpp"

using hailwright::cli::columns_said;
using hailwright::cli::says_utf8;

// Names of locales as `locale -a` of Debian 12 prints them, and as people set them.
TEST_CASE("terminal: a locale says by its name that text is in UTF-8") {
  for (const char* name : {"C.UTF-8", "C.utf8", "de_DE.UTF-8", "en_GB.utf8", "sr_RS.UTF-8@latin"})
    CHECK(says_utf8(name));
  for (const char* name : {"", "C", "POSIX", "de_DE", "de_DE@euro", "en_US.ISO-8859-1", "UTF-8",
                           "ja_JP.eucJP", "x.utf16"})
    CHECK_FALSE(says_utf8(name));
}

TEST_CASE("terminal: COLUMNS holds a width or nothing") {
  CHECK(columns_said("40") == 40);
  CHECK(columns_said("1") == 1);
  CHECK(columns_said("1000000") == 1000000);
  for (const char* text :
       {"", "0", "-3", "+40", "4.5", "40 ", " 40", "0x28", "nonsense", "99999999999999999999"})
    CHECK_FALSE(columns_said(text).has_value());
}
