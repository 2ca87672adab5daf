#include "evaluate/reference_budget.hpp"

#include <algorithm>
#include <cmath>

#include "hailwright/evaluate/defaults.hpp"
#include "hailwright/evaluate/power_model.hpp"
#include "support/catch.hpp"
#include "support/test_builder.hpp"

using namespace hailwright;
using hailwright::testing::TestBuilder;

namespace {

const BudgetRow* row(const ReferenceBudget& budget, const std::string& id) {
  const auto found = std::find_if(budget.rows.begin(), budget.rows.end(),
                                  [&](const BudgetRow& r) { return r.input.id == id; });
  return found == budget.rows.end() ? nullptr : &*found;
}

/// Standard uncertainty of all but what the set-ups and the day add.
double instruments_u(const ReferenceBudget& budget) {
  std::vector<BudgetRow> rows;
  std::copy_if(
      budget.rows.begin(), budget.rows.end(), std::back_inserter(rows), [](const BudgetRow& r) {
        return r.input.scope == Scope::record || r.input.id.find("/between") != std::string::npos;
      });
  return combine(rows).standard_u;
}

}  // namespace

TEST_CASE("reference budget: power and instruments are those of the power before") {
  for (const bool same_panel : {true, false}) {
    TestBuilder b;
    if (same_panel) b.same_panel();
    const Test t = b.build();
    const auto budget = reference_budget(t);
    const auto power = reference_power(t, {StageKind::before, 0});
    REQUIRE(budget);
    REQUIRE(power);
    CHECK_THAT(std::exp(budget->log_power), WithinAbs(power->power.si(), 1e-10));
    CHECK_THAT(instruments_u(*budget), WithinAbs(power->relative_u.si(), 1e-15));
  }
}

// The builder's set-ups lie 0.3 % about their mean, four a stage in two stages: 6 degrees of
// freedom, and half of it in the mean of four.
TEST_CASE("reference budget: set-ups scatter and a day has one sky") {
  const auto budget = reference_budget(TestBuilder().setup_scatter(0.003).build());
  REQUIRE(budget);
  const BudgetRow* scatter = row(*budget, "scatter");
  REQUIRE(scatter != nullptr);
  CHECK_THAT(scatter->contribution(), WithinAbs(0.0015, 1e-9));
  CHECK(scatter->input.degrees_of_freedom == 6.0);
  const BudgetRow* day = row(*budget, "day/before");
  REQUIRE(day != nullptr);
  CHECK(day->contribution() == defaults::day_same_panel_u.si());
}

TEST_CASE("reference budget: the protocol's day counts where it is that of one panel") {
  TestBuilder b;
  b.test.protocol.measure.day = percent(0.4);
  CHECK(row(*reference_budget(b.build()), "day/before")->contribution() ==
        defaults::day_same_panel_u.si());
  b.same_panel();
  CHECK_THAT(row(*reference_budget(b.build()), "day/before")->contribution(),
             WithinAbs(0.004, 1e-15));
}

TEST_CASE("reference budget: days that were repeated show their own scatter") {
  Test t = TestBuilder().build();
  for (Setup& s : t.record.setups)
    s.date = s.number <= 2 ? "2026-06-13" : "2026-06-14";
  const auto budget = reference_budget(t);
  REQUIRE(budget);
  CHECK(row(*budget, "day/before") == nullptr);
  REQUIRE(row(*budget, "scatter") != nullptr);
  CHECK(row(*budget, "scatter")->input.scope == Scope::day);
  CHECK(row(*budget, "scatter")->input.degrees_of_freedom == 2.0);
}

TEST_CASE("reference budget: unknown scatter gives none and a stated one its own") {
  TestBuilder b;
  b.setups(1, 1);
  CHECK_FALSE(reference_budget(b.build()));
  b.test.protocol.measure.setup_scatter = {{{}, "remounting", std::nullopt, percent(0.3)}};
  const auto budget = reference_budget(b.build());
  REQUIRE(budget);
  CHECK_THAT(row(*budget, "setup/remounting/before 1")->contribution(), WithinAbs(0.003, 1e-15));
  CHECK(row(*budget, "readings/before 1") != nullptr);
  CHECK(row(*budget, "day/before") != nullptr);
}

TEST_CASE("reference budget: few repeats do not stand against a larger stated scatter") {
  TestBuilder b;
  b.setups(2, 2).setup_scatter(0.001);
  b.test.protocol.measure.setup_scatter = {{{}, "remounting", std::nullopt, percent(3)}};
  CHECK(row(*reference_budget(b.build()), "scatter") == nullptr);
  b.test.protocol.measure.setup_scatter = {{{}, "remounting", std::nullopt, percent(0.0001)}};
  b.setup_scatter(0.02);
  CHECK(row(*reference_budget(b.build()), "scatter") != nullptr);
}

TEST_CASE("reference budget: set-ups of which nobody says what they redid are no repeats") {
  TestBuilder b;
  b.test.protocol.measure.redone = std::nullopt;
  CHECK_FALSE(reference_budget(b.build()));
  // A step left out and not sized is of unknown size.
  b.test.protocol.measure.redone = std::vector<Redone>{Redone::aim, Redone::probe, Redone::leads};
  CHECK_FALSE(reference_budget(b.build()));
}

TEST_CASE("reference budget: a panel not read before the shots has none") {
  CHECK_FALSE(reference_budget(TestBuilder().siblings(3, 0.01).build()));
}

TEST_CASE("reference budget: a statement that leaves a step out, or single readings, give none") {
  TestBuilder b;
  b.setups(1, 1);
  b.test.protocol.measure.setup_scatter = {{{}, "aim", std::nullopt, percent(0.3)}};
  CHECK_FALSE(reference_budget(b.build()));
  b.test.protocol.measure.setup_scatter = {{{}, "remounting", std::nullopt, percent(0.3)}};
  CHECK(reference_budget(b.build()));
  CHECK_FALSE(reference_budget(b.rounds(1).build()));
}
