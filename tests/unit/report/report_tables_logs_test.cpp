#include "report/log_answer.hpp"
#include "report/report_tables.hpp"
#include "support/catch.hpp"
#include "support/logged_test.hpp"
#include "support/table_cells.hpp"
#include "support/test_builder.hpp"
#include "support/written_up.hpp"

using namespace hailwright;
using namespace hailwright::testing;

TEST_CASE("report tables logs: a row a set-up with what became of its rows") {
  const WrittenUp written(logged_test());
  const DataTable table = logs_table(written.write_up);
  REQUIRE(table.rows.size() == 2);
  for (const auto& row : table.rows)
    CHECK(row.size() == table.columns.size());
  CHECK(words_of(table, "set-up", 0) == "before 1");
  CHECK(words_of(table, "log", 0) == "day.csv");
  CHECK(words_of(table, "from", 0) == "2026-06-14 08:00:00");
  CHECK(words_of(table, "to", 0) == "2026-06-14 08:12:00");
  CHECK(words_of(table, "last row", 0) == "2026-06-14T08:12:00+02:00");
  CHECK(number_of(table, "rows", 0) == 721.0);
  CHECK(number_of(table, "left out", 0) == 2.0);
  CHECK(number_of(table, "readings that count", 1) ==
        number_of(table, "readings that count", 0) + 2.0);
  CHECK(words_of(table, "because", 0) == "irradiance changed: 2");
  CHECK(words_of(table, "because", 1).empty());
}

TEST_CASE("report tables logs: sessions have the numbers of the assessment") {
  const WrittenUp written(logged_test());
  const DataTable table = sessions_table(written.write_up);
  REQUIRE(table.rows.size() == 2);
  for (const auto& row : table.rows)
    CHECK(row.size() == table.columns.size());
  CHECK(words_of(table, "session", 0) == "morning");
  CHECK(words_of(table, "from", 0) == "2026-06-14 06:00");
  CHECK(words_of(table, "first row", 0) == "2026-06-14T06:00:00+02:00");
  const StretchNumbers& n = written.assessment().sessions[0].stretches[0];
  CHECK(number_of(table, "energy", 0) == n.energy->estimate.value.si() / 3600.0);
  CHECK(number_of(table, "± mean power", 0) == n.mean_power->half_width().si());
  CHECK(number_of(table, "second over first", 0) == n.ratio->estimate.value.si());
  CHECK(words_of(table, "session", 1) == "empty");
  CHECK(is_blank(table, "from", 1));
  CHECK(is_blank(table, "energy", 1));
}

TEST_CASE("report tables logs: of a page only what it has room for") {
  const WrittenUp written(logged_test());
  for (const DataTable& table : {logs_table(written.write_up), sessions_table(written.write_up)}) {
    CAPTURE(table.name);
    CHECK(to_table(table).columns.size() <= 12);
  }
}

TEST_CASE("report tables logs: both are among the tables and records without logs have none") {
  const WrittenUp written(logged_test());
  std::vector<std::string> names;
  for (const DataTable& table : report_tables(written.write_up))
    names.push_back(table.name);
  CHECK(names == std::vector<std::string>{"set-ups", "readings", "places", "shots", "budget",
                                          "logs", "sessions", "comparison"});
  const WrittenUp plain{TestBuilder()};
  CHECK(logs_table(plain.write_up).rows.empty());
  CHECK(sessions_table(plain.write_up).rows.empty());
  CHECK(report_workbook(written.write_up).sheets.size() ==
        report_workbook(plain.write_up).sheets.size() + 2);
}
