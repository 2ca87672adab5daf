#include "report/stretch_table.hpp"

#include "support/catch.hpp"
#include "support/log_answers.hpp"
#include "support/table_cells.hpp"

using namespace hailwright;
using namespace hailwright::testing;

TEST_CASE("stretch table: first cells and columns stay before those of the stretch") {
  const ReadingsAnswer a = pair_answer();
  const std::vector<StretchRow> rows{{a.findings.whole, a.results.whole, "+02:00"},
                                     {a.findings.stretches[0], a.results.stretches[0], "UTC"}};
  const DataTable table = stretch_table(
      {"x", "X", {{"a", ""}, {"b", ""}}, {{"1", "2"}, {"3", "4"}}}, rows, StretchTimes::minute);
  CHECK(table.name == "x");
  CHECK(table.columns[2].title == "from");
  CHECK(words_of(table, "b", 1) == "4");
  CHECK(words_of(table, "from", 0) == "2026-06-14 06:00");
  CHECK(words_of(table, "from", 1) == "2026-06-14 06:00");
  CHECK(number_of(table, "second over first", 0) == a.results.whole.ratio->estimate.value.si());
  CHECK(is_blank(table, "second over first", 1));
}

TEST_CASE("stretch table: times as people are shown them") {
  const ReadingsAnswer a = day_answer();
  const std::vector<StretchRow> rows{{a.findings.stretches[0], a.results.stretches[0], "+02:00"}};
  const auto from = [&](StretchTimes shown) {
    return words_of(stretch_table({"x", "", {}, {{}}}, rows, shown), "from", 0);
  };
  CHECK(from(StretchTimes::second) == "2026-06-14 08:00:00");
  CHECK(from(StretchTimes::minute) == "2026-06-14 08:00");
}
