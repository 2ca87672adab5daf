#include "hailwright/report/compose.hpp"

#include "hailwright/report/render.hpp"
#include "support/catch.hpp"

using namespace hailwright;

TEST_CASE("grades: one row a published row, numbers as printed") {
  const Table t = grades_table("");
  CHECK(t.rows.size() == impact_grades().size());
  const Table iec = grades_table("IEC 61215");
  REQUIRE(iec.rows.size() == 8);
  CHECK(iec.rows[2][3] == "25");
  CHECK(iec.rows[2][4] == "7.53");
  CHECK(iec.rows[2][6] == "1.9917");
}

TEST_CASE("grades: memory and derivation are marked on the screen") {
  const std::string s = render_console(compose_grades(""), {});
  CHECK_THAT(s, Contains("from memory") && Contains(" d ") && Contains("Not offered"));
  CHECK_THAT(render_console(compose_grades("VKF"), {}), !Contains("UL 2218"));
}
