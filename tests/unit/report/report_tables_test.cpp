#include "report/report_tables.hpp"

#include <regex>

#include "support/catch.hpp"
#include "support/file_bytes.hpp"
#include "support/table_cells.hpp"
#include "support/test_builder.hpp"
#include "support/written_up.hpp"

using namespace hailwright;
using namespace hailwright::testing;

namespace {

const std::string awkward = "<b>\"A\" & =1+1 |x|";

std::vector<std::string> names_of(const std::vector<DataTable>& tables) {
  std::vector<std::string> names;
  for (const DataTable& table : tables)
    names.push_back(table.name);
  return names;
}

}  // namespace

TEST_CASE("report_tables: all tables, each row beginning with its record") {
  const WrittenUp written = written_demo();
  const std::size_t last = hailwright::testing::demo_names().size() - 1;
  const std::vector<DataTable> tables = report_tables(written.write_up);
  CHECK(names_of(tables) == std::vector<std::string>{"set-ups", "readings", "places", "shots",
                                                     "budget", "logs", "sessions", "comparison"});
  for (const DataTable& table : tables) {
    CAPTURE(table.name);
    CHECK(table.columns[0].title == "record");
    CHECK_FALSE(render_csv(table).empty());
    CHECK(to_table(table).rows.size() == table.rows.size());
    // One record of the demo has logs.
    if (table.name == "logs" || table.name == "sessions") continue;
    CHECK(words_of(table, "record", 0) == written.test(0).record.title);
    CHECK(words_of(table, "record", table.rows.size() - 1) == written.test(last).record.title);
  }
}

// Found by review: on a screen 1280 wide the table of throws was 1893 wide, and lambda stood before
// the loss.
TEST_CASE("report_tables: people get the columns that people read") {
  const WrittenUp written = written_demo();
  for (const DataTable& table : report_tables(written.write_up)) {
    CAPTURE(table.name);
    const Table people = to_table(table);
    CHECK(people.columns.size() <= 12);
    for (const Column& column : people.columns) {
      CAPTURE(column.title);
      CHECK_FALSE(std::regex_search(column.title, std::regex("lambda|\\bq\\b|weight|^u of")));
    }
  }
}

TEST_CASE("report_tables: the page of the tables tells what people get") {
  const std::string page = tree_file("docs/spreadsheet.md");
  const WrittenUp written = written_demo();
  for (const DataTable& table : report_tables(written.write_up)) {
    const std::size_t begin = page.find("`" + table.name + ".csv`:");
    REQUIRE(begin != std::string::npos);
    const std::string section = page.substr(begin, page.find(".csv`:", begin + 20) - begin);
    for (std::size_t c = 1; c < table.columns.size(); ++c) {
      CAPTURE(table.name, table.columns[c].title);
      const bool marked = section.find("`" + table.columns[c].title + "` *") != std::string::npos;
      CHECK(marked != table.columns[c].for_machines);
    }
  }
}

TEST_CASE("report_tables: the page of the tables names every file and column") {
  const std::string page = tree_file("docs/spreadsheet.md");
  const WrittenUp written = written_demo();
  for (const DataTable& table : report_tables(written.write_up)) {
    const std::size_t begin = page.find("`" + table.name + ".csv`");
    CAPTURE(table.name);
    REQUIRE(begin != std::string::npos);
    const std::string section = page.substr(begin, page.find(".csv`:", begin + 20) - begin);
    for (std::size_t c = 1; c < table.columns.size(); ++c) {
      CAPTURE(table.columns[c].title);
      CHECK_THAT(section, Contains("`" + table.columns[c].title + "`"));
    }
  }
}

TEST_CASE("report_tables: a table without rows is left out") {
  Test test = TestBuilder().build();
  test.record.readings.clear();
  test.record.setups.clear();
  const WrittenUp written(test);
  CHECK(names_of(report_tables(written.write_up)) ==
        std::vector<std::string>{"places", "shots", "comparison"});
}

TEST_CASE("report_tables: labels come out literally, and never as a formula") {
  Test test = TestBuilder().build();
  test.record.title = awkward;
  test.record.shots[0].note = "=1+1";
  test.record.setups[0].name = "-2+3";
  const WrittenUp written(test);
  for (const DataTable& table : report_tables(written.write_up)) {
    CAPTURE(table.name);
    CHECK(to_table(table).rows[0][0] == awkward);
    CHECK_THAT(render_csv(table), Contains("\"<b>\"\"A\"\" & =1+1 |x|\","));
    CHECK_THAT(render_csv(table), !Contains(",=1+1") && !Contains(",-2+3"));
  }
}

TEST_CASE("report_tables: the same record gives the same bytes") {
  const WrittenUp first = written_demo();
  const WrittenUp second = written_demo();
  const auto one = report_tables(first.write_up);
  const auto two = report_tables(second.write_up);
  REQUIRE(one.size() == two.size());
  for (std::size_t i = 0; i < one.size(); ++i)
    CHECK(render_csv(one[i]) == render_csv(two[i]));
}

// A temperature of 44.7 degC is 317.85 K, which is no double, and came back as 44.69999999999999.
TEST_CASE("report_tables: a temperature reads back as it was typed") {
  for (int tenths = -400; tenths <= 1200; ++tenths) {
    const double typed = tenths / 10.0;
    CHECK(typed_celsius(TemperaturePoint::from_celsius(typed)) == typed);
  }
  CHECK(typed_celsius(TemperaturePoint::from_celsius(44.125)) == 44.125);
  // 111.3 degF has no end in degC.
  const TemperaturePoint odd = TemperaturePoint::from_kelvin(317.2055555555556);
  CHECK_THAT(typed_celsius(odd), WithinAbs(44.0555555555556, 1e-12));
}

TEST_CASE("report_tables: decimals of a step") {
  CHECK(decimals_of_step(1.0) == 0);
  CHECK(decimals_of_step(0.1) == 1);
  CHECK(decimals_of_step(0.001) == 3);
}
