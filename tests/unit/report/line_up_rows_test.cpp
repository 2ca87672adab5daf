#include "report/line_up_rows.hpp"

#include "hailwright/report/line_up.hpp"
#include "support/catch.hpp"
#include "support/line_up_examples.hpp"

using namespace hailwright;
using namespace hailwright::detail;
using namespace hailwright::testing;

TEST_CASE("line-up rows: all of a group that has room") {
  const LineUpRows rows = rows_shown(many_panels(line_up_rows_shown).line_up.groups[0]);
  CHECK(rows.rows.size() == line_up_rows_shown);
  CHECK_FALSE(rows.gap());
}

TEST_CASE("line-up rows: top and bottom of a larger one, and what stands between") {
  const LineUpRows rows = rows_shown(many_panels(line_up_rows_shown + 1).line_up.groups[0]);
  CHECK(rows.rows.size() == line_up_rows_shown);
  REQUIRE(rows.gap());
  CHECK(rows.left_out == 1);
  CHECK(rows.gap_before == 20);
  CHECK(rows.rows[19] == 19);
  CHECK(rows.rows[20] == 21);
  CHECK(rows.rows.back() == 40);
}
