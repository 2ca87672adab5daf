#include "logs/log_text_kind.hpp"

#include <string>
#include <string_view>

#include "support/catch.hpp"
#include "support/log_beginning.hpp"

using namespace hailwright;
using namespace hailwright::detail;
using test::LogBeginning;
using namespace std::string_literals;

TEST_CASE("log text: what is no text in UTF-8 is refused with the mend") {
  struct Case {
    std::string text;
    std::string place, part;
  };
  for (const Case& c : {
           Case{"\xFF\xFEt\0i\0"s, "L18 0:0", "UTF-16"},
           Case{"\xFE\xFF\0t\0i"s, "L18 0:0", "UTF-16"},
           Case{"t\0i\0m\0e\0"s, "L18 0:0", "half of the bytes are zero"},
           Case{"time,power W\r2026-06-14 10:02,1\r2026-06-14 10:03,2\r", "L18 0:0", "CR alone"},
           Case{"PK\x03\x04rest", "L18 0:0", "workbook"},
           Case{"\x1F\x8B\x08", "L18 0:0", "compressed twice"},
           Case{"time,temp \xB0"
                "C\n2026-06-14 10:02,1\n2026-06-14 10:03,2\n",
                "L18 1:11", "0xB0"},
       }) {
    CAPTURE(c.place, c.part);
    LogBeginning log(c.text);
    HeadNotes notes(log.file, log.sources, log.notes);
    CHECK_FALSE(read_layout(log.text, std::nullopt, notes));
    CHECK(log.only() == c.place);
    CHECK_THAT(log.messages(), Contains(c.part));
  }
}

TEST_CASE("log text: UTF-8 is read with and without its mark") {
  for (const std::string mark : {"", "\xEF\xBB\xBF"}) {
    LogBeginning log(mark + "time,temp °C\n2026-06-14 10:02,1\n2026-06-14 10:03,2\n");
    HeadNotes notes(log.file, log.sources, log.notes);
    const auto layout = read_layout(log.text, std::nullopt, notes);
    REQUIRE(layout);
    CHECK(layout->headers[0].whole == "time");
    CHECK(layout->headers[1].unit == "°C");
  }
}
