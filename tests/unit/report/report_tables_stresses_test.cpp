#include <regex>

#include "hailwright/report/compose_explanation.hpp"
#include "hailwright/report/render.hpp"
#include "report/judgement_energy.hpp"
#include "report/report_tables.hpp"
#include "support/catch.hpp"
#include "support/written_up.hpp"

using namespace hailwright;
using namespace hailwright::testing;

namespace {

WrittenUp stressed() {
  WrittenUp written;
  written.read("protocols/demo/stresses/rigid-stressed.yaml");
  return written;
}

std::size_t column_called(const DataTable& table, const std::string& title) {
  for (std::size_t i = 0; i < table.columns.size(); ++i) {
    if (table.columns[i].title == title) return i;
  }
  FAIL("no column " << title);
  return 0;
}

}  // namespace

// Found by review: "nozzle as planned: no" decided a word and stood in no table.
TEST_CASE("stresses table: what is yes or no has a row, as 1 or 0 without an interval") {
  WrittenUp written = stressed();
  StressQuantity& q = written.assessment().stresses.at(0).quantities.at(0);
  q.reached.label = "nozzle as planned";
  q.reached.yes_no = true;
  q.reached.done.value = Ratio::from_si(0.0);
  q.side = StressSide::weaker;
  const DataTable table = stresses_table(written.write_up);
  const auto& row = table.rows.at(0);
  REQUIRE(row.size() == table.columns.size());
  CHECK(row[column_called(table, "quantity")] == DataCell("nozzle as planned"));
  CHECK(row[column_called(table, "unit")] == DataCell("1 yes, 0 no"));
  CHECK(row[column_called(table, "planned")] == DataCell(1.0));
  CHECK(row[column_called(table, "done")] == DataCell(0.0));
  CHECK(row[column_called(table, "low")] == DataCell());
  CHECK(row[column_called(table, "against the plan")] == DataCell("weaker"));
}

// Found by review: steps 9 and 10 told of hits and throws where only stresses were done.
TEST_CASE("explanation of stresses: each quantity with its chance, and no word of hail") {
  const WrittenUp written = stressed();
  Document out;
  append_explanation(out, written.judged().at(0), written.sources());
  const std::string text = std::regex_replace(render_console(out, {}), std::regex("\\s+"), " ");
  CHECK_THAT(text, Contains("9. What was done") && Contains("P(not weaker) = "));
  CHECK_THAT(text, Contains("line 4: withstood"));
  for (const char* word : {"since_last_shot", "No hit", "hail", "not struck", "throw"}) {
    CAPTURE(word);
    CHECK_THAT(text, !Contains(word));
  }
}

TEST_CASE("stresses: a measurement beside them is before or after the stresses") {
  CHECK(when_text(false, "", false) == "before the stresses");
  CHECK(when_text(true, "2026-06-20", false) == "after the stresses, 2026-06-20");
  CHECK(when_text(true, "", true) == "after the shots");
}
