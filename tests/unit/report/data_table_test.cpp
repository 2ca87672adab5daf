#include "hailwright/report/data_table.hpp"

#include <cmath>
#include <cstdlib>
#include <limits>

#include "hailwright/core/contract.hpp"
#include "support/catch.hpp"

using namespace hailwright;

namespace {

DataTable sample() {
  return {"readings",
          "What was read",
          {{"of", ""}, {"power", "W", 1}, {"round", "", 0}, {"note", ""}},
          {{"panel", 71.24, 1.0, ""}, {"control", DataCell(), 2.0, ""}}};
}

std::string only_cell(double number) {
  const std::string csv = render_csv(DataTable{"t", "", {{"x", "", 2}}, {{number}}});
  return csv.substr(3, csv.size() - 5);
}

}  // namespace

TEST_CASE("data_table: a title has its unit") {
  CHECK(titled({"power", "W", 1}) == "power [W]");
  CHECK(titled({"round", "", 0}) == "round");
}

TEST_CASE("data_table: for people, numbers to the decimals of their column") {
  const Table table = to_table(sample());
  CHECK(table.caption == "What was read");
  CHECK(table.file == "readings.csv");
  REQUIRE(table.columns.size() == 3);
  CHECK(table.columns[1].title == "power [W]");
  CHECK(table.columns[0].align == Align::left);
  CHECK(table.columns[1].align == Align::right);
  CHECK(table.rows ==
        std::vector<std::vector<std::string>>{{"panel", "71.2", "1"}, {"control", "", "2"}});
}

TEST_CASE(
    "data_table: a column without any content is left out for people and stays for machines") {
  CHECK(to_table(sample()).columns.size() == 3);
  CHECK(render_csv(sample()) == "of,power [W],round,note\r\npanel,71.24,1,\r\ncontrol,,2,\r\n");
  DataTable empty = sample();
  empty.rows.clear();
  CHECK(to_table(empty).columns.size() == 4);
}

// Found by review: a table of 27 columns, of which a person reads ten.
TEST_CASE("data_table: columns for machines are left out for people and stay in the file") {
  DataTable table = sample();
  table.columns[2] = for_machines(table.columns[2]);
  CHECK(table.columns[2].title == "round");
  REQUIRE(to_table(table).columns.size() == 2);
  CHECK(to_table(table).rows ==
        std::vector<std::vector<std::string>>{{"panel", "71.2"}, {"control", ""}});
  CHECK(render_csv(table) == render_csv(sample()));
  table.rows.clear();
  CHECK(to_table(table).columns.size() == 3);
}

TEST_CASE("data_table: a number in csv reads back to the same double") {
  for (const double number :
       {0.1, 1.0 / 3.0, -2.5e-300, 6.02214076e23, 1e15, -0.0066981467402995876, 5e-324,
        std::numeric_limits<double>::max(), 123456789.0}) {
    CAPTURE(number);
    CHECK(std::strtod(only_cell(number).c_str(), nullptr) == number);
    CHECK(only_cell(number).find('\'') == std::string::npos);
  }
  CHECK(only_cell(-0.0) == "0");
  CHECK(only_cell(25.0) == "25");
}

TEST_CASE("data_table: words cannot become formulas") {
  const DataTable table{"t", "", {{"note", ""}}, {{"<b>\"A\" & =1+1 |x|"}, {"=1+1"}}};
  CHECK(render_csv(table) == "note\r\n\"<b>\"\"A\"\" & =1+1 |x|\"\r\n\"'=1+1\"\r\n");
  CHECK(to_table(table).rows[0][0] == "<b>\"A\" & =1+1 |x|");
}

TEST_CASE("data_table: a table that is none is our own mistake") {
  const auto refused = [](const DataTable& table) {
    CHECK_THROWS_AS(to_table(table), BugError);
    CHECK_THROWS_AS(render_csv(table), BugError);
  };
  refused({"t", "", {}, {}});
  refused({"t", "", {{"x", "", 2}}, {{1.0, 2.0}}});
  refused({"t", "", {{"x", "", 2}}, {{std::nan("")}}});
  refused({"t", "", {{"x", "", 2}}, {{std::numeric_limits<double>::infinity()}}});
  refused({"t", "", {{"x", "", 2}}, {{"words"}}});
  refused({"t", "", {{"x", ""}}, {{1.0}}});
}

// Found by review: a price of 1e300 took 301 digits on the page.
TEST_CASE("data_table: a number of more digits than a double holds is told by its power of ten") {
  const DataTable table{"t", "", {{"x", "", 2}}, {{1e300}, {-1.5e15}, {9.99e14}}};
  const auto rows = to_table(table).rows;
  CHECK(rows[0][0] == "1.00e300");
  CHECK(rows[1][0] == "-1.50e15");
  CHECK(rows[2][0] == "999000000000000.00");
}
