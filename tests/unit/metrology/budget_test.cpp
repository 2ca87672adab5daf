#include "hailwright/metrology/budget.hpp"

#include <vector>

#include "hailwright/core/contract.hpp"
#include "support/catch.hpp"

using namespace hailwright;

namespace {
BudgetRow row(const char* label, Evaluation evaluation, double c, double u) {
  return {{label, label, Scope::record, evaluation, u, 5.0}, c};
}
}  // namespace

TEST_CASE("a budget is combined whole and by kind of evaluation") {
  const std::vector<BudgetRow> rows{row("a", Evaluation::type_a, 1.0, 3.0),
                                    row("b", Evaluation::type_b, -2.0, 2.0)};
  CHECK_THAT(combine(rows).standard_u, WithinRel(5.0, 1e-14));
  CHECK_THAT(combine(rows, Evaluation::type_a).standard_u, WithinRel(3.0, 1e-14));
  CHECK_THAT(combine(rows, Evaluation::type_a).degrees_of_freedom, WithinRel(5.0, 1e-14));
}

TEST_CASE("printed lines put like inputs together, the largest first") {
  const std::vector<BudgetRow> rows{row("sky", Evaluation::type_b, 1.0, 3.0),
                                    row("meter", Evaluation::type_b, 1.0, 12.0),
                                    row("sky", Evaluation::type_b, -1.0, 4.0)};
  const auto lines = summarise(rows);
  REQUIRE(lines.size() == 2);
  CHECK(lines[0].label == "meter");
  CHECK_THAT(lines[1].standard_u, WithinRel(5.0, 1e-14));
  CHECK_THAT(lines[0].share.si() + lines[1].share.si(), WithinRel(1.0, 1e-14));
}

TEST_CASE("sizes that do not fit are our bug") {
  const double one[] = {1.0};
  const double two[] = {1.0, 2.0};
  CHECK_THROWS_AS(welch_satterthwaite(one, two), BugError);
  CHECK_THROWS_AS(propagate_correlated(two, two, two), BugError);
}
