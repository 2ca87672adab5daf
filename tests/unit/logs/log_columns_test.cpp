#include "logs/log_columns.hpp"

#include <string>
#include <vector>

#include "support/catch.hpp"
#include "support/log_beginning.hpp"

using namespace hailwright;
using namespace hailwright::detail;
using test::LogBeginning;

namespace {

const std::string two_rows = "2026-06-14 10:02,1,2\n2026-06-14 10:03,1,2\n";

std::optional<std::vector<LogColumn>> columns_of(LogBeginning& log, const LogFormat& stated = {}) {
  HeadNotes notes(log.file, log.sources, log.notes);
  const auto layout = find_layout(log.text, std::nullopt, notes);
  REQUIRE(layout);
  return find_columns(*layout, stated, notes);
}

LogFormat states(std::vector<LogColumnChoice> columns) {
  LogFormat format;
  format.columns = std::move(columns);
  return format;
}

}  // namespace

TEST_CASE("log columns: proposed ones are taken where nothing is open") {
  LogBeginning log("time,power W,irradiance W/m2\n" + two_rows);
  const auto columns = columns_of(log);
  REQUIRE(columns);
  CHECK(log.notes.empty());
  REQUIRE(columns->size() == 3);
  CHECK((*columns)[1].role == LogRole::power);
  CHECK((*columns)[1].place == 1);
  CHECK((*columns)[1].unit.symbol == "W");
  CHECK((*columns)[1].header == "power W");
}

TEST_CASE("log columns: voltage and current only without power") {
  LogBeginning parts("time,U V,I A\n" + two_rows);
  const auto both = columns_of(parts);
  REQUIRE(both);
  CHECK(both->size() == 3);
  LogBeginning whole("time,P W,U V\n" + two_rows);
  const auto power = columns_of(whole);
  REQUIRE(power);
  CHECK(power->size() == 2);
}

TEST_CASE("log columns: two for one role") {
  LogBeginning log("time,P1 W,P2 W\n" + two_rows);
  CHECK_FALSE(columns_of(log));
  CHECK(log.only() == "L03 1:11");
  const std::string told = log.messages();
  CHECK_THAT(told, Contains("\"P1 W\" and \"P2 W\" could both be the power"));
  CHECK_THAT(told, Contains("power: \"P1 W\""));
  CHECK_THAT(told, Contains("power: \"P2 W\""));
}

TEST_CASE("log columns: stated ones") {
  LogBeginning log("time,P1 W,P2 W\n" + two_rows);
  const auto columns = columns_of(
      log, states({{LogRole::time, "time", "", {}}, {LogRole::power, " P2 W ", "", {}}}));
  REQUIRE(columns);
  CHECK((*columns)[1].place == 2);
  LogBeginning bare("time,P1,P2\n" + two_rows);
  const auto with_unit =
      columns_of(bare, states({{LogRole::time, "time", "", {}}, {LogRole::power, "P2", "kW", {}}}));
  REQUIRE(with_unit);
  CHECK((*with_unit)[1].unit.factor == 1000.0);
}

TEST_CASE("log columns: a stated unit that the header contradicts is said") {
  LogBeginning log("time,P [kW],G\n" + two_rows);
  const auto columns = columns_of(
      log, states({{LogRole::time, "time", "", {}}, {LogRole::power, "P [kW]", "W", {}}}));
  REQUIRE(columns);
  CHECK((*columns)[1].unit.symbol == "W");
  REQUIRE(log.notes.items().size() == 1);
  CHECK(log.notes.items()[0].severity == Severity::warning);
  CHECK(log.notes.items()[0].code == "L04");
  LogBeginning same("time,P [W],G\n" + two_rows);
  REQUIRE(columns_of(
      same, states({{LogRole::time, "time", "", {}}, {LogRole::power, "P [W]", "W", {}}})));
  CHECK(same.notes.empty());
}

// Found by review: "power W" stated as kW, and "sun W/m2" as a power, were read without a word.
TEST_CASE("log columns: a unit at the end of a header's name is held against the stated one") {
  struct Case {
    std::string header;
    LogRole role;
    std::string unit, message;  ///< no message: nothing is said
  };
  for (const Case& c : {
           Case{"power W", LogRole::power, "kW", "\"power W\" says W; its numbers are read as kW"},
           Case{"sun W/m2", LogRole::power, "W",
                "says W/m2, no unit of a power; its numbers are read as W"},
           Case{"P [V]", LogRole::power, "W", "says V, no unit of a power"},
           Case{"sun kW/m2", LogRole::irradiance, "W/m2",
                "says kW/m2; its numbers are read as W/m2"},
           Case{"power W", LogRole::power, "W", ""},
           Case{"power Watt", LogRole::power, "W", ""},
           Case{"power", LogRole::power, "W", ""},
           // Likelier part of the name than a unit.
           Case{"panel A", LogRole::power, "W", ""},
           Case{"sun W", LogRole::irradiance, "W/m2", ""},
       }) {
    CAPTURE(c.header, c.unit);
    LogBeginning log("time," + c.header + ",x\n" + two_rows);
    const LogColumnChoice choice{c.role, c.header, c.unit, {1, 7, 5, 4}};
    const auto columns = columns_of(log, states({{LogRole::time, "time", "", {}}, choice}));
    REQUIRE(columns);
    CHECK((*columns)[1].unit.symbol == c.unit);
    CHECK(log.notes.items().size() == (c.message.empty() ? 0U : 1U));
    for (const Diagnostic& note : log.notes.items()) {
      CHECK(note.severity == Severity::warning);
      CHECK(note.code == "L04");
      CHECK_THAT(note.message, Contains(c.message));
    }
  }
}

TEST_CASE("log columns: what is refused and where") {
  struct Case {
    std::string header;
    std::vector<LogColumnChoice> stated;
    std::string place, part;
  };
  const SourceSpan there{1, 7, 5, 4};
  const LogColumnChoice time{LogRole::time, "time", "", {}};
  for (const Case& c : {
           Case{"time,power,x", {}, "L04 1:6", "has no unit"},
           Case{"time,x,y", {}, "L09 1:1", "what to measure"},
           Case{"time,U V,x", {}, "L09 1:1", "what to measure"},
           Case{"time,power W,x",
                {time, {LogRole::power, "powr W", "", there}},
                "L03 7:5",
                "write \"power W\""},
           Case{"time,a W,a W",
                {time, {LogRole::power, "a W", "", there}},
                "L03 7:5",
                "2 columns \"a W\""},
           Case{"time,a,b",
                {time, {LogRole::power, "a", "", there}},
                "L04 7:5",
                "power: {name: \"a\", unit: W}"},
           Case{"time,a V,b",
                {time, {LogRole::power, "a V", "", there}},
                "L04 7:5",
                "no unit of a power"},
           Case{"time,a W,b",
                {time, {LogRole::power, "a W", "hW", there}},
                "L04 7:5",
                "\"hW\" is no unit of a power"},
           Case{"time,a W,b", {{LogRole::power, "a W", "", there}}, "L09 0:0", "tells the time"},
           Case{"time,a W,b", {time}, "L09 0:0", "what to measure"},
           Case{"time,a W,b",
                {time, {LogRole::voltage, "a W", "V", there}},
                "L09 0:0",
                "what to measure"},
       }) {
    CAPTURE(c.header);
    LogBeginning log(c.header + '\n' + two_rows);
    CHECK_FALSE(columns_of(log, states(c.stated)));
    CHECK(log.only() == c.place);
    CHECK_THAT(log.messages(), Contains(c.part));
  }
}

TEST_CASE("log columns: a power that could be left out is told") {
  LogBeginning log("time,Panel W,G W/m2\n2026-06-14 10:02,1,2\n2026-06-14 10:03,1,2\n");
  REQUIRE(columns_of(log));
  CHECK(log.only() == "L03 1:6");
  CHECK_FALSE(log.notes.has_errors());
  CHECK_THAT(log.messages(), Contains("\"Panel W\" could be it"));
}

TEST_CASE("log columns: times that are not read are told with their mend") {
  for (const auto& [first, mend] :
       std::vector<std::pair<std::string, std::string>>{{"0.5", "count from the start"},
                                                        {"14.06.26 10:02", "four digits"},
                                                        {"10:02:03", "needs its date"},
                                                        {"14.06.2026", "needs a time of day"}}) {
    CAPTURE(first);
    LogBeginning log("time,power W\n" + first + ",1\n" + first + ",2\n");
    CHECK_FALSE(columns_of(log));
    CHECK(log.only() == "L09 1:1");
    CHECK_THAT(log.messages(),
               Contains(mend) || Contains("write  date") || Contains("write  clock"));
  }
}

TEST_CASE("log columns: units of loggers are read by their size") {
  LogBeginning log("time,power [mW],G (kW/m2)\n" + two_rows);
  const auto columns = columns_of(log);
  REQUIRE(columns);
  CHECK(log.notes.empty());
  CHECK((*columns)[1].unit.factor == 0.001);
  CHECK((*columns)[2].unit.factor == 1000.0);
}

// Obeying the mend once made every number wrong by the prefix.
TEST_CASE("log columns: a unit that is not read is not to be replaced") {
  LogBeginning log("time,power [MW]\n2026-06-14 10:02,1\n2026-06-14 10:03,1\n");
  CHECK_FALSE(columns_of(log));
  const std::string told = log.messages();
  CHECK_THAT(told, Contains("\"MW\" is no unit of a power"));
  CHECK_THAT(told, Contains("if MW is the unit of its numbers: export them in one of W, kW, or"));
  CHECK_THAT(told, !Contains("power [MW] W"));
  LogBeginning stated("time,P [MW],G\n" + two_rows);
  CHECK_FALSE(columns_of(
      stated, states({{LogRole::time, "time", "", {}}, {LogRole::power, "P [MW]", "", {}}})));
  CHECK_THAT(stated.messages(), Contains("if MW is the unit of its numbers"));
}

TEST_CASE("log columns: a unit of another measure asks for another column") {
  LogBeginning log("time,irradiance [W/m2],G\n" + two_rows);
  CHECK_FALSE(columns_of(log, states({{LogRole::time, "time", "", {}},
                                      {LogRole::power, "irradiance [W/m2]", "", {}}})));
  CHECK_THAT(log.messages(), Contains("name another column"));
  CHECK_THAT(log.messages(), !Contains("unit: W"));
}

TEST_CASE("log columns: two of one header need another name in the file") {
  LogBeginning log("time,P W,P W\n" + two_rows);
  CHECK_FALSE(columns_of(log));
  CHECK_THAT(log.messages(), Contains("another name in the line of headers"));
  CHECK_THAT(log.messages(), !Contains("state the columns"));
  LogBeginning stated("time,P W,P W\n" + two_rows);
  CHECK_FALSE(columns_of(
      stated, states({{LogRole::time, "time", "", {}}, {LogRole::power, "P W", "", {}}})));
  CHECK_THAT(stated.messages(), Contains("another name in the line of headers"));
}
