#include <cmath>

#include "hailwright/report/line_up.hpp"
#include "support/catch.hpp"
#include "support/line_up_examples.hpp"
#include "support/table_cells.hpp"

using namespace hailwright;
using namespace hailwright::testing;

TEST_CASE("line_up_tables: every record with its group, or why it has none") {
  const LineUpExample eight = eight_panels();
  const DataTable table = line_up_tables(eight.view({"record"})).front();
  CHECK(table.name == "line-up");
  REQUIRE(table.rows.size() == 8);
  CHECK(number_of(table, "group", 4) == 1.0);
  CHECK(is_blank(table, "not ranked because", 4));
  CHECK(is_blank(table, "group", 6));
  CHECK(is_blank(table, "rank, first", 6));
  CHECK(words_of(table, "record", 6) == "Rigid G");
  CHECK(words_of(table, "not ranked because", 6) == "no power was compared");
  CHECK(words_of(table, "file", 0) == "Rigid-A.yaml");
}

TEST_CASE("line_up_tables: a large group comes out whole") {
  const LineUpExample many = many_panels(500);
  CHECK(line_up_tables(many.view()).front().rows.size() == 500);
}

TEST_CASE("line_up_tables: differences as they were reckoned") {
  const LineUpExample five = five_panels();
  const auto tables = line_up_tables(five.view());
  REQUIRE(tables.size() == 2);
  const DataTable& table = tables[1];
  CHECK(table.name == "differences");
  REQUIRE(table.rows.size() == 10);
  const LineUpDifference& d = five.line_up.groups[0].differences[1];
  CHECK(words_of(table, "first", 1) == "Rigid A");
  CHECK(words_of(table, "second", 1) == "Rigid C");
  CHECK(number_of(table, "difference of ln", 1) == d.difference);
  CHECK(number_of(table, "low of ln", 1) == d.low);
  CHECK(number_of(table, "p adjusted", 1) == d.p_adjusted);
  CHECK(is_blank(table, "degrees of freedom", 1));
  CHECK(words_of(table, "shown?", 1) == "yes");
  CHECK(line_up_tables(single_panel().view()).size() == 1);
}
