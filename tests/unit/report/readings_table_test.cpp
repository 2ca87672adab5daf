#include <cmath>

#include "hailwright/report/compose_readings.hpp"
#include "support/catch.hpp"
#include "support/log_answers.hpp"

using namespace hailwright;
using namespace hailwright::testing;

namespace {

const DataCell& cell(const DataTable& table, std::size_t row, const std::string& title) {
  for (std::size_t c = 0; c < table.columns.size(); ++c) {
    if (titled(table.columns[c]) == title) return table.rows.at(row).at(c);
  }
  FAIL("no column " << title);
  return table.rows[0][0];
}

double number(const DataTable& table, std::size_t row, const std::string& title) {
  return std::get<double>(cell(table, row, title));
}

std::string words(const DataTable& table, std::size_t row, const std::string& title) {
  return std::get<std::string>(cell(table, row, title));
}

}  // namespace

TEST_CASE("readings_table: a row for the whole log and one a stretch") {
  const ReadingsAnswer a = day_answer();
  const DataTable t = readings_table(a);
  REQUIRE(t.rows.size() == 3);
  for (const auto& row : t.rows)
    CHECK(row.size() == t.columns.size());
  CHECK(words(t, 0, "stretch") == "whole log");
  CHECK(words(t, 2, "stretch") == "before 2");
  CHECK(words(t, 1, "first row") == "2026-06-14T08:00:00+02:00");
  CHECK(words(t, 1, "from") == "2026-06-14 08:00:00");
  CHECK(number(t, 1, "rows") == 721.0);
  CHECK_THAT(number(t, 0, "energy [Wh]"), WithinRel(62.5 * 35400.0 / 3600.0, 1e-12));
  CHECK_THAT(number(t, 0, "energy, standard uncertainty [Wh]"),
             WithinRel(a.results.whole.energy->estimate.standard_u.si() / 3600.0, 1e-12));
  CHECK_THAT(number(t, 0, "± mean power [W]"),
             WithinRel(a.results.whole.mean_power->half_width().si(), 1e-12));
  CHECK(number(t, 0, "gaps") == 1.0);
  CHECK(number(t, 0, "rows removed, irradiance changed") == 2940.0);
  CHECK(number(t, 0, "counter resets") == 1.0);
  CHECK(number(t, 1, "independent readings") == 15.6);
}

TEST_CASE("readings_table: what a stretch has not is blank and the table prints") {
  ReadingsAnswer a = day_answer();
  const DataTable t = readings_table(a);
  CHECK(std::holds_alternative<std::monostate>(cell(t, 1, "counted energy [Wh]")));
  CHECK(std::holds_alternative<std::monostate>(cell(t, 0, "second over first")));
  // Endless degrees of freedom are no number.
  CHECK(std::holds_alternative<std::monostate>(cell(t, 0, "energy, degrees of freedom")));
  const std::string csv = render_csv(t);
  CHECK_THAT(csv,
             Contains("stretch,from,to,first row,last row,rows,") &&
                 Contains("before 1,2026-06-14 08:00:00,2026-06-14 08:12:00,2026-06-14T08:00:00"));
  CHECK_FALSE(to_table(t).rows.empty());
  a.findings.stretches[1].rows = 0;
  CHECK(std::holds_alternative<std::monostate>(cell(readings_table(a), 2, "from")));
}

TEST_CASE("readings_table: a name becomes no formula") {
  ReadingsAnswer a = day_answer();
  a.findings.stretches[0].name = "=1+1";
  CHECK_THAT(render_csv(readings_table(a)), Contains("'=1+1"));
}
