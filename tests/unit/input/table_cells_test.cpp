#include "input/table_cells.hpp"

#include "hailwright/input/readers.hpp"
#include "support/catch.hpp"

using namespace hailwright;
using namespace hailwright::input;

namespace {

struct Split {
  TableSource source;
  Diagnostics notes;
  std::optional<CellTable> table;

  explicit Split(std::string text, int first_line = 1, int first_column = 1)
      : source{1, first_line, first_column, std::move(text)} {
    table = read_cells(source, notes);
  }
  [[nodiscard]] std::string cell(std::size_t row, std::size_t column) const {
    return std::string(table.value().rows.at(row).cells.at(column).text);
  }
  [[nodiscard]] const Diagnostic& only_note() const {
    REQUIRE(notes.items().size() == 1);
    return notes.items().front();
  }
};

}  // namespace

TEST_CASE("table cells: a table is split at the separator that its header uses most") {
  const auto [text, separator] = GENERATE(table<std::string, char>({
      {"a,b,c\n1,2,3\n", ','},
      {"a;b;c\n1;2;3\n", ';'},
      {"a\tb\tc\n1\t2\t3\n", '\t'},
      {"\"a,x,y,z\";b;c\n1;2;3\n", ';'},
      {"a,b,c;d\n1,2,3\n", ','},
  }));
  CAPTURE(text);
  const Split s(text);
  REQUIRE(s.notes.empty());
  CHECK(s.table->separator == separator);
  REQUIRE(s.table->header.size() == 3);
  CHECK(s.cell(0, 2) == "3");
}

TEST_CASE(
    "table cells: byte order mark, CRLF, comments, empty lines and blank rows are tolerated") {
  const Split s("\xEF\xBB\xBF# made by hand\r\n\r\na,b\r\n  # more\r\n1, 2 \r\n,\r\n   \r\n3,4");
  REQUIRE(s.notes.empty());
  REQUIRE(s.table->rows.size() == 2);
  CHECK(s.cell(0, 1) == "2");
  CHECK(s.table->rows[0].origin.line == 5);
  CHECK(s.table->rows[0].cells[1].origin.column == 4);
  CHECK(s.table->rows[0].cells[1].origin.length == 1);
  CHECK(s.cell(1, 1) == "4");
  CHECK(s.table->rows[1].origin.line == 8);
}

TEST_CASE("table cells: quoted cells hold separators and doubled quotes") {
  const Split s("a,b,c\n\"x, y\", \"say \"\"ice\"\"\" ,\"\"\n");
  REQUIRE(s.notes.empty());
  CHECK(s.cell(0, 0) == "x, y");
  CHECK(s.cell(0, 1) == "say \"ice\"");
  CHECK(s.cell(0, 2).empty());
  CHECK(s.table->rows[0].cells[1].origin.column == 9);
}

TEST_CASE("table cells: a line break inside quotes is an error at the quote") {
  const Split s("a,b\n1,\"two\nlines\",3\n4,5\n");
  REQUIRE(s.notes.has_errors());
  const Diagnostic& d = s.notes.items().front();
  CHECK(d.code == "T04");
  CHECK(d.where.line == 2);
  CHECK(d.where.column == 3);
  CHECK_THAT(d.hints.at(0), Contains("cannot hold a line break"));
  REQUIRE(s.table->rows.size() == 1);
  CHECK(s.cell(0, 0) == "4");
}

TEST_CASE("table cells: stray quotes are errors at their place") {
  const auto [text, column] = GENERATE(table<std::string, int>({
      {"a,b\n5\" ball,1\n", 2},
      {"a,b\n\"x\"y,1\n", 4},
      {"a,b\n1,\"x\" y\n", 7},
  }));
  CAPTURE(text);
  const Split s(text);
  CHECK(s.only_note().code == "T04");
  CHECK(s.only_note().where.column == column);
  CHECK(s.table->rows.empty());
}

TEST_CASE("table cells: columns count characters and the offset of a block in YAML") {
  const Split s("a,b,c\n\xC3\xA4\xC3\xB6,x,1,2\n", 20, 5);
  const Diagnostic& d = s.only_note();
  CHECK(d.code == "T05");
  CHECK(d.where.line == 21);
  CHECK(d.where.column == 12);
  CHECK(d.related.at(0).where.line == 20);
  CHECK(d.related.at(0).where.column == 5);
}

TEST_CASE("table cells: rows of another width than the header") {
  SECTION("too many cells") {
    const Split s("a,b\n1,2,3\n");
    CHECK(s.only_note().code == "T05");
    CHECK(s.only_note().where.column == 5);
    CHECK_THAT(s.only_note().message, Contains("row has 3 cells, the header has 2"));
  }
  SECTION("too few cells") {
    const Split s("a,b,c\n1,2\n");
    CHECK(s.only_note().code == "T05");
    CHECK_THAT(s.only_note().message, Contains("row has 2 cells, the header has 3"));
  }
  SECTION("empty cells at the end of row and header are fine") {
    const Split s("a,b,,\n1,2,,,,\n3,4\n");
    CHECK(s.notes.empty());
    CHECK(s.table->header.size() == 2);
    CHECK(s.table->rows.size() == 2);
  }
}

TEST_CASE("table cells: a table without a header") {
  const std::string text = GENERATE("", "\n\n", "# nothing\n", "\xEF\xBB\xBF");
  const Split s(text);
  CHECK(s.only_note().code == "T03");
  CHECK_FALSE(s.table.has_value());
}

TEST_CASE("table cells: limits of size are errors and quick") {
  SECTION("a text above 8 MiB") {
    const Split s(std::string(largest_table + 1, 'a'));
    CHECK(s.only_note().code == "T01");
  }
  SECTION("ten million columns") {
    const Split s(std::string(10'000'000, ','));
    CHECK(s.only_note().code == "T01");
  }
  SECTION("eight million columns, within 8 MiB") {
    const Split s(std::string(8'000'000, ','));
    CHECK(s.only_note().code == "T01");
    CHECK_THAT(s.only_note().message, Contains("more than 10000 cells"));
    CHECK_FALSE(s.table.has_value());
  }
  SECTION("a cell of more than 10000 characters") {
    const Split s("a,b\n" + std::string(10'001, 'x') + ",1\n");
    CHECK(s.only_note().code == "T01");
    const Split fits("a,b\n" + std::string(10'000, 'x') + ",1\n");
    CHECK(fits.notes.empty());
  }
  SECTION("more than a million rows") {
    std::string text = "a\n";
    for (std::size_t i = 0; i <= most_rows; ++i)
      text += "1\n";
    const Split s(text);
    CHECK(s.only_note().code == "T01");
    CHECK(s.only_note().where.line == 1'000'002);
    CHECK(s.table->rows.size() == most_rows);
  }
}

TEST_CASE("table cells: a table that is wrong all over is not reported row by row for ever") {
  std::string text = "a,b\n";
  for (int i = 0; i < 5000; ++i)
    text += "1,2,3\n";
  const Split s(text);
  REQUIRE(s.notes.items().size() == most_messages + 1);
  CHECK(s.notes.items().back().code == "T02");
}
