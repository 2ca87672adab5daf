#include "report/report_tables.hpp"
#include "support/catch.hpp"
#include "support/curve_readings.hpp"
#include "support/written_up.hpp"

using namespace hailwright;
using namespace hailwright::testing;

TEST_CASE("report tables: figures of the curve as they were read") {
  Test test = TestBuilder().build();
  test.record.curves = drawn_curves(CurvePattern::shunt, 0.02, 0, {2, 1, 0.0, 0.0});
  test.record.curves->after[0].open_circuit.reset();
  const WrittenUp written(test);
  const DataTable table = curves_table(written.write_up);
  CHECK(table.name == "curves");
  REQUIRE(table.rows.size() == 3);
  for (const auto& row : table.rows)
    CHECK(row.size() == table.columns.size());
  CHECK(table.rows[1][1] == DataCell("before"));
  CHECK(table.rows[1][2] == DataCell(2.0));
  CHECK(table.rows[2][1] == DataCell("after"));
  CHECK(table.rows[2][3] == DataCell());
  CHECK(table.rows[2][7] == DataCell(test.record.curves->after[0].sun.si()));
}

TEST_CASE("report tables: no rows without figures of the curve") {
  CHECK(curves_table(WrittenUp(TestBuilder()).write_up).rows.empty());
}
