#include "input/table_columns.hpp"

#include "hailwright/core/contract.hpp"
#include "support/catch.hpp"

using namespace hailwright;
using namespace hailwright::input;

namespace {

std::vector<ColumnRule> rules() {
  return {
      {.name = "setup", .required = true, .from_above = true},
      {.name = "power",
       .holds = Holds::quantity,
       .measure = Measure::power,
       .unit = "W",
       .required = true},
      {.name = "temp", .holds = Holds::quantity, .measure = Measure::temperature, .unit = "degC"},
      {.name = "diameter",
       .holds = Holds::quantity,
       .measure = Measure::length,
       .unit = "mm",
       .repeats = true},
      {.name = "frames", .holds = Holds::number},
      {.name = "round", .holds = Holds::count},
      {.name = "note"},
  };
}

constexpr Limits watts{0.0, 1000.0, true, "above 0 W, up to 1000 W"};
constexpr Limits metres{0.0, 1.0, false, "up to 1 m"};

struct Read {
  TableSource source;
  Diagnostics notes;
  Sheet sheet;
  explicit Read(std::string text)
      : source{1, 1, 1, std::move(text)}, sheet(source, rules(), notes) {}
  [[nodiscard]] const Diagnostic& only_note() const {
    for (const Diagnostic& d : notes.items())
      UNSCOPED_INFO(d.code << " " << d.where.column << " " << d.message);
    REQUIRE(notes.items().size() == 1);
    return notes.items().front();
  }
};

}  // namespace

TEST_CASE("table columns: header cells: each mistake has its code, its place and its mend") {
  struct Case {
    const char* header;
    const char* code;
    int column;
    const char* hint;
  };
  const auto c = GENERATE(values<Case>({
      {"setup,power", "T09", 7, "power W"},
      {"setup,power Watt", "T10", 13, "W"},
      {"setup,power (W)", "T10", 13, "power W"},
      {"setup,power mm", "T10", 13, "W"},
      {"setup,powr W", "T06", 7, "did you mean \"power\"?"},
      {"setup,power_W", "T06", 7, "did you mean \"power\"?"},
      {"setup,,power W", "T06", 7, "name the column"},
      {"setup,power W,power W", "T07", 15, nullptr},
      {"setup,power W,note mm", "T11", 20, "note"},
      {"setup,power W,weather", "T06", 15, "one of: setup, power, temp"},
      {"setup,note", "T08", 1, "power W"},
      {"setup|power W", "T06", 1, nullptr},
  }));
  CAPTURE(c.header);
  const Read r(std::string(c.header) + "\n");
  CHECK_FALSE(r.sheet.usable());
  REQUIRE_FALSE(r.notes.empty());
  const Diagnostic& d = r.notes.items().front();
  CAPTURE(d.message);
  CHECK(d.code == c.code);
  CHECK(d.where.line == 1);
  CHECK(d.where.column == c.column);
  if (c.hint != nullptr) CHECK_THAT(d.hints.at(0), Contains(c.hint));
}

TEST_CASE("table columns: the unit of another quantity is told apart from no unit") {
  const Read wrong("setup,power mm\n");
  CHECK_THAT(wrong.only_note().message, Contains("is the unit of a length"));
  const Read unknown("setup,power quux\n");
  CHECK_THAT(unknown.only_note().message, Contains("unknown unit \"quux\""));
}

TEST_CASE("table columns: all mistakes of a header come at once, and none follows from another") {
  const Read r("stup,power,diameter kg\n");
  REQUIRE(r.notes.items().size() == 3);
  CHECK(r.notes.items()[0].code == "T06");
  CHECK(r.notes.items()[1].code == "T09");
  CHECK(r.notes.items()[2].code == "T10");
}

TEST_CASE("table columns: a missing column is reported beside other mistakes of the header") {
  const Read r("setup,note mm\n");
  REQUIRE(r.notes.items().size() == 2);
  CHECK(r.notes.items()[0].code == "T11");
  CHECK(r.notes.items()[1].code == "T08");
}

TEST_CASE("table columns: values come in SI whatever the unit of the column") {
  Read r("setup,power W,temp degF,diameter mm,diameter cm\nbefore 1,77.1,125.96,25.2,2.49\n");
  REQUIRE(r.sheet.usable());
  const CellRow& row = r.sheet.rows().at(0);
  CHECK_THAT(r.sheet.value(row, "power", watts, r.notes).value(), WithinRel(77.1, 1e-12));
  // 125.96 degF is 52.2 degC: (125.96 - 32) / 1.8.
  constexpr Limits kelvin{0.0, 1000.0, false, ""};
  CHECK_THAT(r.sheet.value(row, "temp", kelvin, r.notes).value(), WithinAbs(325.35, 1e-9));
  const auto diameters = r.sheet.values(row, "diameter", metres, r.notes);
  REQUIRE(diameters.size() == 2);
  CHECK_THAT(diameters[0], WithinRel(0.0252, 1e-12));
  CHECK_THAT(diameters[1], WithinRel(0.0249, 1e-12));
  CHECK(r.notes.empty());
}

TEST_CASE("table columns: the decimal mark is a comma only where it does not separate") {
  SECTION("semicolons and commas") {
    Read r("setup;power W\nbefore 1;77,1\nbefore 1;80\n");
    REQUIRE(r.notes.empty());
    CHECK_THAT(r.sheet.value(r.sheet.rows()[0], "power", watts, r.notes).value(),
               WithinRel(77.1, 1e-12));
    CHECK_THAT(r.sheet.value(r.sheet.rows()[1], "power", watts, r.notes).value(),
               WithinRel(80.0, 1e-12));
    CHECK(r.notes.empty());
  }
  SECTION("semicolons and points") {
    Read r("setup;power W\nbefore 1;77.1\n");
    CHECK_THAT(r.sheet.value(r.sheet.rows()[0], "power", watts, r.notes).value(),
               WithinRel(77.1, 1e-12));
    CHECK(r.notes.empty());
  }
  SECTION("both: an error at the first of the second kind, said once") {
    Read r("setup;power W;note\nbefore 1;77,1;a.b\nbefore 1;78.2;\nbefore 1;79.3;\n");
    CHECK(r.only_note().code == "T13");
    CHECK(r.only_note().where.line == 3);
    CHECK(r.only_note().where.column == 10);
    CHECK(r.only_note().related.at(0).where.line == 2);
    r.sheet.value(r.sheet.rows()[1], "power", watts, r.notes);
    CHECK(r.notes.items().size() == 1);
  }
  SECTION("a comma in quotes between commas") {
    Read r("setup,power W\nbefore 1,\"77,1\"\n");
    CHECK_FALSE(r.sheet.value(r.sheet.rows()[0], "power", watts, r.notes).has_value());
    CHECK_THAT(r.only_note().hints.at(0), Contains("point is the decimal mark"));
  }
  SECTION("thousands are not grouped") {
    Read r("setup;power W\nbefore 1;1.077,1\n");
    CHECK_FALSE(r.sheet.value(r.sheet.rows()[0], "power", watts, r.notes).has_value());
    CHECK(r.notes.has_errors());
  }
}

TEST_CASE("table columns: numbers that are not, or out of range") {
  const auto [cell, column] = GENERATE(table<std::string, int>({
      {"seven", 10},
      {"nan", 10},
      {"inf", 10},
      {"0x10", 0},
      {"1e400", 0},
      {"0", 10},
      {"-3", 10},
      {"1001", 10},
      {"77.1 W", 0},
      {"1_0", 0},
  }));
  CAPTURE(cell);
  Read r("setup,power W\nbefore 1," + cell + "\n");
  CHECK_FALSE(r.sheet.value(r.sheet.rows().at(0), "power", watts, r.notes).has_value());
  const Diagnostic& d = r.only_note();
  CHECK(d.where.line == 2);
  if (column != 0) CHECK(d.where.column == column);
  CHECK(d.where.column >= 10);
}

TEST_CASE("table columns: a blank cell means the row above only where the column says so") {
  Read r("setup,power W,note\nbefore 1,1,first\n,2,\n ,3,\nafter 1,4,\n,5,\n");
  REQUIRE(r.sheet.rows().size() == 5);
  CHECK(r.sheet.text(r.sheet.rows()[1], "setup") == "before 1");
  CHECK(r.sheet.text(r.sheet.rows()[2], "setup") == "before 1");
  CHECK(r.sheet.text(r.sheet.rows()[4], "setup") == "after 1");
  CHECK(r.sheet.cell(r.sheet.rows()[1], "note") == nullptr);
  CHECK(r.sheet.cell(r.sheet.rows()[1], "setup")->origin.line == 3);
  CHECK(r.notes.empty());

  Read nothing_above("setup,power W\n,1\n");
  CHECK(nothing_above.sheet.required_cell(nothing_above.sheet.rows()[0], "setup",
                                          nothing_above.notes) == nullptr);
  CHECK(nothing_above.only_note().code == "T12");
}

TEST_CASE("table columns: counts are whole and in range") {
  Read r("setup,power W,round\nbefore 1,1,3\n,1,2.5\n,1,0\n,1,\n");
  const auto& rows = r.sheet.rows();
  CHECK(r.sheet.count(rows[0], "round", 1, 9, r.notes) == 3);
  CHECK(r.notes.empty());
  CHECK_FALSE(r.sheet.count(rows[1], "round", 1, 9, r.notes).has_value());
  CHECK_FALSE(r.sheet.count(rows[2], "round", 1, 9, r.notes).has_value());
  CHECK(r.notes.items().size() == 2);
  CHECK_FALSE(r.sheet.count(rows[3], "round", 1, 9, r.notes).has_value());
  CHECK(r.notes.items().size() == 2);
}

TEST_CASE("table columns: a column outside the rules is our bug") {
  const Read r("setup,power W\nbefore 1,1\n");
  CHECK_THROWS_AS(r.sheet.cell(r.sheet.rows()[0], "sun"), BugError);
}

TEST_CASE("table columns: names in messages are cut at a whole character") {
  std::string text(59, 'a');
  text += "\xC3\xA4"
          "b";
  CHECK(shown(text) == "\"" + std::string(59, 'a') + "...\"");
  CHECK(shown("short") == "\"short\"");
}
