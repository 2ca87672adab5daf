#include "logs/log_recognise_lines.hpp"

#include "hailwright/core/contract.hpp"
#include "support/catch.hpp"

using namespace hailwright;
using namespace hailwright::detail;

TEST_CASE("log lines: numbers of lines count comments and blank lines too") {
  const auto lines = lines_of("\xEF\xBB\xBF# made by hand\r\n\r\n \t\r\na,b\r\n  # no\r\n1,2");
  REQUIRE(lines.size() == 2);
  CHECK(lines[0].number == 4);
  CHECK(lines[0].text == "a,b");
  CHECK(lines[1].number == 6);
  CHECK(lines[1].text == "1,2");
  CHECK(lines_of("").empty());
  CHECK(lines_of("\n\n").empty());
}

TEST_CASE("log lines: cells with their places") {
  const auto cells = cells_of(R"(a, "b, c" ,,"say ""x""")", ',');
  REQUIRE(cells.size() == 4);
  CHECK(cells[0].text == "a");
  CHECK(cells[1].text == "b, c");
  CHECK(cells[1].offset == 4);
  CHECK(cells[1].length == 4);
  CHECK(cells[2].text.empty());
  CHECK(cells[3].text == R"(say "x")");
  CHECK(cells_of("\"open,b", ',').empty());
  CHECK(cells_of("a\t\tb", '\t').size() == 3);
}

TEST_CASE("log lines: what a cell holds") {
  CHECK(kind_of("") == CellKind::blank);
  CHECK(kind_of("12.5") == CellKind::number);
  CHECK(kind_of("-3") == CellKind::number);
  CHECK(kind_of("12,5") == CellKind::comma_number);
  CHECK(kind_of("2026-06-14T10:02:03") == CellKind::stamp);
  CHECK(kind_of("06/07/2026 10:02:03 PM") == CellKind::stamp);
  CHECK(kind_of("14.06.2026") == CellKind::date);
  CHECK(kind_of("10:02") == CellKind::clock);
  CHECK(kind_of("1781431323") == CellKind::number);
  CHECK(kind_of("ERR") == CellKind::words);
  CHECK(kind_of("nan") == CellKind::words);
}

TEST_CASE("log lines: messages count characters and show their line") {
  SourceSet sources;
  Diagnostics found;
  HeadNotes notes(sources.add_unkept("log.csv"), sources, found);
  const HeadLine line{3, "tempé,b"};
  notes.error("L03", line, {"b", 7, 1}, "no b", {});
  notes.error("L02", HeadLine{}, "nothing there", {});
  REQUIRE(found.items().size() == 2);
  CHECK(found.items()[0].where.line == 3);
  CHECK(found.items()[0].where.column == 7);
  CHECK(found.items()[0].where.length == 1);
  CHECK(sources.line(1, 3) == "tempé,b");
  CHECK(found.items()[1].where.line == 0);
  CHECK(trimmed(" \ta b ") == "a b");
}
