#include "report/table_layout.hpp"

#include <string>

#include "hailwright/core/contract.hpp"
#include "support/catch.hpp"

using namespace hailwright;
using detail::Grid;

namespace {

Grid grid_of(std::vector<Column> columns, std::vector<std::vector<std::string>> rows) {
  return detail::tidied({"", std::move(columns), std::move(rows)});
}

std::string text_of(const std::vector<Runs>& lines) {
  std::string text;
  for (const Runs& line : lines) {
    for (const Run& run : line)
      text += run.text;
    text += '\n';
  }
  return text;
}

}  // namespace

TEST_CASE("a table that fits keeps its natural widths") {
  Grid grid = grid_of({{"a", Align::left}, {"number", Align::right}}, {{" one\ntwo ", "1"}});
  CHECK(detail::fit(grid, 15));
  CHECK(grid.widths == std::vector<int>{7, 6});
  CHECK(text_of(detail::head_lines(grid)) == "a        number\n");
  CHECK(text_of({detail::rule_line(grid)}) == "-------  ------\n");
  CHECK(text_of(detail::row_lines(grid, grid.rows[0])) == "one two       1\n");
}

TEST_CASE("text is wrapped from the widest column on, figures and short columns are not") {
  const std::string long_text = "words enough to be wrapped several times over";
  Grid grid = grid_of({{"n", Align::right}, {"short", Align::left}, {"long", Align::left}},
                      {{"-1.7 to 3.6", "two words", long_text}});
  REQUIRE(detail::fit(grid, 44));
  CHECK(grid.widths == std::vector<int>{11, 9, 18});
  CHECK(text_of(detail::row_lines(grid, grid.rows[0])) ==
        "-1.7 to 3.6  two words  words enough to be\n"
        "                        wrapped several\n"
        "                        times over\n");
}

TEST_CASE("wrapped titles stand on the rule") {
  Grid grid = grid_of({{"speed m/s", Align::right}, {"of", Align::left}}, {{"23.0", "ball"}});
  REQUIRE(detail::fit(grid, 12));
  CHECK(text_of(detail::head_lines(grid)) == "speed\n  m/s  of\n");
}

TEST_CASE("a table whose figures and words need more room does not fit") {
  Grid narrow = grid_of({{"a", Align::right}, {"b", Align::left}}, {{"1 2 3 4 5", "indivisible"}});
  CHECK(detail::fit(narrow, 22));
  narrow.widths.clear();
  CHECK_FALSE(detail::fit(narrow, 21));
}

TEST_CASE("a table without columns or with ragged rows is a broken promise") {
  CHECK_THROWS_AS(grid_of({}, {}), BugError);
  CHECK_THROWS_AS(grid_of({{"a", Align::left}}, {{}}), BugError);
}
