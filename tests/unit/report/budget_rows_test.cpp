#include "report/budget_rows.hpp"

#include <set>

#include "support/catch.hpp"
#include "support/judged_power.hpp"
#include "support/written_up.hpp"

using namespace hailwright;
using hailwright::testing::demo_names;
using hailwright::testing::judged;
using hailwright::testing::TestBuilder;
using hailwright::testing::written_demo;
using hailwright::testing::WrittenUp;

TEST_CASE("budget rows: largest first, what prints as nothing is one row, and all together last") {
  for (const std::string& name : demo_names()) {
    CAPTURE(name);
    const WrittenUp written = written_demo({name});
    const PowerResult& p = written.assessment().power.front();
    if (!p.estimated()) continue;
    const std::vector<ShownBudgetRow> rows = shown_budget(p);
    REQUIRE(rows.size() >= 2);
    double last = rows.front().points;
    double squares = 0.0;
    for (const ShownBudgetRow& row : rows) {
      CAPTURE(row.label);
      CHECK(row.together == (&row == &rows.back()));
      if (row.together) continue;
      CHECK((row.number == "0.00") ==
            (row.label.find("that cancel or are small") != std::string::npos));
      CHECK(row.points <= last);
      last = row.points;
      squares += row.points * row.points;
    }
    // Up to 20 rows of less than 0.005 points are counted as nothing.
    CHECK_THAT(squares, WithinAbs(rows.back().points * rows.back().points, 20 * 0.005 * 0.005));
    CHECK_THAT(rows.back().points, WithinRel(100.0 * p.estimate.u_loss().si(), 1e-12));
    CHECK(rows.back().share == "100 %");
  }
}

TEST_CASE("budget rows: equal contributions keep their order") {
  std::vector<BudgetRow> budget(4);
  const double sizes[] = {1.0, -3.0, 3.0, 2.0};
  for (std::size_t i = 0; i < budget.size(); ++i) {
    budget[i].input.standard_u = 1.0;
    budget[i].sensitivity = sizes[i];
  }
  CHECK(largest_first(budget) == std::vector<std::size_t>{1, 2, 3, 0});
}

TEST_CASE("budget rows: size times sensitivity is lambda in SI and its per cent as shown") {
  const PowerResult p = judged(TestBuilder().build());
  const std::vector<InputUnit> units = input_units(p);
  REQUIRE(units.size() == p.budget.size());
  std::set<std::string> seen;
  for (const InputUnit& unit : units) {
    seen.insert(unit.size);
    CHECK(unit.shown_size_factor * unit.shown_sensitivity_factor == 100.0);
    const std::string size = unit.size;
    CHECK((size == "1") == (std::string(unit.sensitivity) == "1"));
    CHECK((unit.shown_size_factor == 1.0) == (std::string(unit.shown_size) == size));
  }
  CHECK(seen == std::set<std::string>{"1", "1/K", "K", "W"});
}
