// Step 3 of an explanation: how far repeats differ.
#include "report/explanation.hpp"

#include <fmt/format.h>

#include <cmath>

#include "hailwright/core/quantity_text.hpp"
#include "report/words.hpp"

namespace hailwright {

namespace {

/// The rows of the budget that were found by repeats.
std::vector<BudgetRow> observed_rows(const PowerResult& p) {
  std::vector<BudgetRow> rows;
  for (const BudgetRow& row : p.budget) {
    if (row.input.evaluation == Evaluation::type_a) rows.push_back(row);
  }
  return rows;
}

const char* unit_word(const PowerModel& m) {
  return m.unit_is_day ? "day" : "set-up";
}

void pooled(Step& step, const PowerCase& power) {
  const PowerModel& m = power.model();
  const std::string unit = unit_word(m);
  step.what = {
      fmt::format("How far the {0}s of one stage differ tells how far two {0}s of an unchanged "
                  "panel would. The squares of their distances from {1}.",
                  unit,
                  m.trend ? "the fitted line are taken together"
                          : "the mean of their own stage are pooled over before, after and "
                            "baseline"),
      fmt::format("This scatter replaces what is done anew in each {}{} and the scatter of single "
                  "readings, which are not added again. It replaces nothing that the {}s share: "
                  "{}drift between the stages and the errors of the instruments come in step 4.",
                  unit, m.unit_is_day ? ", the sky of the day" : " (mounting, aiming, plugging in)",
                  unit, m.unit_is_day ? "" : "the sky of a day, ")};
  const double s = *m.pooled_sd;
  const double nu = m.observed_dof;
  step.formula = {"s = root of (sum of squared distances / nu)",
                  m.trend ? "nu = number before + number after - 3"
                          : "nu = sum over the blocks of (number - 1)"};
  step.here = {fmt::format("nu = {}, sum of squares = {} (in units of 1e-6), s = {} = {} %",
                           freedom_text(nu), fixed(s * s * nu * 1e6, 3), six(s),
                           hundredfold(s, 4))};
}

void without_line(Step& step, const PowerCase& power) {
  const PowerModel& m = power.model();
  const double u = std::sqrt(1.0 / m.units_from + 1.0 / m.units_to) * *m.pooled_sd;
  step.formula.emplace_back("u_A = s x root of (1 / number before + 1 / number after)");
  step.here.push_back(fmt::format("u_A = {} x root of (1/{} + 1/{}) = {}", six(*m.pooled_sd),
                                  m.units_from, m.units_to, six(u)));
}

void with_line(Step& step, const PowerCase& power) {
  const PowerResult& p = power.result;
  const FittedTrend& t = *power.model().trend;
  const Combined observed = combine(p.budget, Evaluation::type_a);
  step.formula.emplace_back("u_A = s x root of (sum of the squared weights of step 2)");
  step.here.push_back(fmt::format("u_A = {}; without the line it had been {}: the line costs a "
                                  "factor of {}",
                                  six(observed.standard_u), six(t.u_without),
                                  fixed(observed.standard_u / t.u_without, 2)));
  step.here.push_back(fmt::format("the line itself: {} % a day, u {} %", hundredfold(t.per_day, 3),
                                  hundredfold(t.u_per_day, 3)));
}

/// Rows found by repeats, one by one.
void list_rows(Step& step, const PowerCase& power, const char* without = "") {
  for (const BudgetRow& row : observed_rows(power.result)) {
    if (row.input.id == without) continue;
    step.here.push_back(fmt::format(
        "{} ({}): u = {}, {}, weight {}", row.input.label, row.input.id, six(row.input.standard_u),
        degrees_text(row.input.degrees_of_freedom), six(row.sensitivity)));
  }
}

void spread_of_units(Step& step, const PowerCase& power) {
  const SiblingSpread& s = *power.model().siblings;
  const auto m = static_cast<double>(s.units.size());
  step.pages = method_pages({"control-and-siblings"});
  if (s.assumed || !s.sd) {
    step.what = {"How far two units of the model differ was not measured. The tolerance that the "
                 "maker gives stands for it in step 4, and nothing is decided by it."};
    list_rows(step, power);
    return;
  }
  step.what = {"The struck panel was one more unit of the model before it was struck. How far the "
               "unstruck ones differ among themselves tells how far it may have differed from "
               "their mean by itself. Their set-up scatter is in that spread already."};
  step.formula = {"s_m = standard deviation of the units' means, m - 1 degrees of freedom",
                  "u_unit = s_m x root of (1 + 1/m)"};
  step.here = {fmt::format("s_m = {}, u_unit = {} x root of (1 + 1/{}) = {}, {}", six(*s.sd),
                           six(*s.sd), fixed(m, 0), six(*s.sd * std::sqrt(1.0 + 1.0 / m)),
                           degrees_text(m - 1.0))};
  list_rows(step, power, "spread");
}

void of_readings(Step& step, const PowerCase& power) {
  step.what = {"The set-ups were not repeated often enough to tell their scatter, so this result "
               "rests on the scatter that the protocol states, in step 4. Beside it stands the "
               "scatter of the readings in each set-up, with n - 1 degrees of freedom."};
  step.formula = {"u = s / root of (number of readings that count one by one)",
                  "one, unless the protocol says why readings are independent, or 20 and more show "
                  "how they hang together"};
  list_rows(step, power);
}

/// What bears on the scatter: the two stages beside each other, and the figure that was stated.
void compare(Step& step, const PowerCase& power) {
  const PowerModel& m = power.model();
  if (m.variance_ratio_p) {
    step.here.push_back(fmt::format(
        "F ratio of the two stages' variances over its 97.5 % point: {}, {}",
        fixed(*m.variance_ratio_p, 2),
        *m.variance_ratio_p > 1.0 ? "more than chance explains, a warning" : "no warning"));
  }
  for (const PowerNote& n : power.result.notes) {
    if (n.remark != PowerRemark::stated_smaller_than_observed) continue;
    step.here.push_back(fmt::format("by what the protocol states u had been {}, by the scatter "
                                    "observed it is {}: the larger is used, which is the observed "
                                    "one",
                                    six(n.numbers.at(0)), six(n.numbers.at(1))));
  }
}

}  // namespace

Step explain_scatter(const PowerCase& power) {
  const PowerModel& m = power.model();
  Step step;
  step.title = "3. Scatter";
  step.pages = method_pages({"setup-scatter"});
  step.source = "rules M1 and M2; JCGM 100:2008, 4.2 (repeats)";
  if (m.siblings) {
    spread_of_units(step, power);
  } else if (m.pooled_sd) {
    pooled(step, power);
    m.trend ? with_line(step, power) : without_line(step, power);
  } else {
    of_readings(step, power);
  }
  compare(step, power);
  return step;
}

}  // namespace hailwright
