#include "report/report_workbook_sheet.hpp"

#include "hailwright/core/contract.hpp"
#include "support/catch.hpp"

using namespace hailwright;

namespace {

TableSheet sample() {
  return TableSheet({"set-ups",
                     "",
                     {{"of", ""}, {"power", "W", 1}, {"note", ""}},
                     {{"panel", 71.2, "as judged"}, {"control", DataCell(), ""}}});
}

}  // namespace

TEST_CASE("report_workbook_sheet: cells are found by the titles of their columns") {
  const TableSheet sheet = sample();
  CHECK(sheet.here("power", 0) == "$B$2");
  CHECK(sheet.there("power", 1) == "'set-ups'!$B$3");
  CHECK(sheet.range("power", 0, 2) == "'set-ups'!$B$2:$B$3");
  CHECK_THROWS_AS(sheet.here("none", 0), BugError);
  CHECK_THROWS_AS(sheet.range("power", 0, 0), BugError);
}

TEST_CASE(
    "report_workbook_sheet: a live cell keeps the value that it had, a blank one stays blank") {
  TableSheet sheet = sample();
  sheet.make_live("power", 0, "=1+1");
  sheet.make_live("note", 0, "=A1");
  sheet.make_live("power", 1, "=1+1");
  REQUIRE(sheet.number("power", 0) != nullptr);
  CHECK(*sheet.number("power", 0) == 71.2);
  CHECK(sheet.number("note", 0) == nullptr);
  const Sheet taken = sheet.take();
  const auto& number = std::get<Formula>(taken.rows[1][1].content);
  CHECK(number.text == "=1+1");
  CHECK(std::get<double>(number.value) == 71.2);
  CHECK(taken.rows[1][1].decimals == 1);
  CHECK(std::get<std::string>(std::get<Formula>(taken.rows[1][2].content).value) == "as judged");
  CHECK(std::get<std::string>(taken.rows[2][1].content).empty());
}

TEST_CASE("report_workbook_sheet: cells of the reader are marked in words and by their look") {
  TableSheet sheet = sample();
  sheet.to_change("power");
  const Sheet taken = sheet.take();
  CHECK(std::get<std::string>(taken.rows[0][1].content) == "power [W]: yours to change");
  CHECK(taken.rows[1][1].to_change);
  CHECK_FALSE(taken.rows[2][1].to_change);  // blank
  CHECK_FALSE(taken.rows[1][0].to_change);
  CHECK(taken.columns.size() == 3);
}
