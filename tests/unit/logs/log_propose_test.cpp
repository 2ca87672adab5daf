#include <algorithm>
#include <string>
#include <vector>

#include "hailwright/logs/log_recognise.hpp"
#include "support/catch.hpp"
#include "support/log_beginning.hpp"

using namespace hailwright;
using test::LogBeginning;

namespace {

std::vector<std::string> yaml_of(const std::string& text) {
  LogBeginning log(text);
  const auto proposed = propose_format(log.text, log.file, log.sources, log.notes);
  REQUIRE(proposed);
  CHECK(log.notes.empty());
  return format_yaml(*proposed);
}

}  // namespace

TEST_CASE("propose format: a column map to complete") {
  CHECK(yaml_of("Zeit;Leistung [W];\"Temp \"\"back\"\" °C\";Status\n"
                "14.06.2026 10:02;79,1;45,1;on\n14.06.2026 10:03;79,2;45,2;on\n") ==
        std::vector<std::string>{
            "hailwright: columns 1",
            "# Still open: state the zone of the stamps: zone: +02:00  or  zone: "
            "Europe/Berlin",
            "columns:",
            "  time: \"Zeit\"  # its cells are dates with a time of day",
            "  power: {name: \"Leistung [W]\", unit: W}  # by its name; the header says W",
            "  temperature: {name: \"Temp \\\"back\\\" °C\", unit: °C}  # by its name; the header "
            "says °C",
            "  # left out: \"Status\"",
            "separator: semicolon",
            "decimal: comma",
        });
}

TEST_CASE("propose format: what has several answers is left to the user") {
  const auto lines =
      yaml_of("time,P1 W,P2 W,energy\n06/07/2026 10:02,1,2,3\n06/07/2026 10:03,1,2,3\n");
  CHECK(lines == std::vector<std::string>{
                     "hailwright: columns 1",
                     "# Still open: which column is the power: take the # away before one of "
                     "its lines",
                     "# Still open: state the unit of the column \"energy\"",
                     "# Still open: state the order of day and month: dates: day first  or  "
                     "dates: month first",
                     "# Still open: state the zone of the stamps: zone: +02:00  or  zone: "
                     "Europe/Berlin",
                     "columns:",
                     "  time: \"time\"  # its cells are dates with a time of day",
                     "  # power: {name: \"P1 W\", unit: W}  # by its name; the header says W",
                     "  # power: {name: \"P2 W\", unit: W}  # by its name; the header says W",
                     "  energy: \"energy\"  # by its name; the unit is missing",
                     "separator: comma",
                     "decimal: point",
                 });
}

TEST_CASE("propose format: no time and an open decimal mark") {
  LogBeginning log("n;power W\n1;1,234\n2;1,300\n");
  const auto proposed = propose_format(log.text, log.file, log.sources, log.notes);
  REQUIRE(proposed);
  REQUIRE(proposed->to_answer.size() == 2);
  CHECK_THAT(proposed->to_answer[0], Contains("decimal"));
  CHECK_THAT(proposed->to_answer[1], Contains("column of the time"));
  CHECK(proposed->left_out == std::vector<std::string>{"n"});
  CHECK(format_yaml(*proposed).back() == "separator: semicolon");
}

TEST_CASE("propose format: no header") {
  LogBeginning log("nothing\n");
  CHECK_FALSE(propose_format(log.text, log.file, log.sources, log.notes));
  CHECK(log.only() == "L02 1:1");
}

TEST_CASE("propose format: a unit that is read in headers alone is not stated") {
  const auto lines = yaml_of("time,power [mW],irradiance [klx]\n2026-06-14 10:02Z,1,2\n");
  CHECK(std::count(lines.begin(), lines.end(),
                   "  power: \"power [mW]\"  # by its name; the header says mW") == 1);
  CHECK(std::count(lines.begin(), lines.end(),
                   "# Still open: what klx is in the column \"irradiance [klx]\": a unit that is "
                   "not read, then export it in another one; or none, then state the unit") == 1);
  CHECK(std::count(lines.begin(), lines.end(),
                   "  irradiance: \"irradiance [klx]\"  # by its name; klx is no unit that is "
                   "read") == 1);
}

TEST_CASE("propose format: two columns of one header") {
  const auto lines = yaml_of("time,P W,P W\n2026-06-14 10:02Z,1,2\n");
  CHECK(lines[1] == "# Still open: two columns of one header could be the power: give one of them "
                    "another name in the file");
}
