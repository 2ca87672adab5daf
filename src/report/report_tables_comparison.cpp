// Tables of a write-up: the uncertainty budget, and all comparisons of power side by side.
#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "hailwright/core/contract.hpp"
#include "hailwright/evaluate/price.hpp"
#include "report/budget_rows.hpp"
#include "report/judged_stages.hpp"
#include "report/report_tables.hpp"
#include "report/sentences.hpp"
#include "report/shown_loss.hpp"

namespace hailwright {

namespace {

DataCell degrees_cell(double value) {
  return std::isfinite(value) ? DataCell(value) : DataCell();
}

void add_budget(DataTable& table, const Test& test, const PowerResult& p) {
  const std::vector<InputUnit> units = input_units(p);
  const double whole = combine(p.budget).standard_u;
  for (const std::size_t i : largest_first(p.budget)) {
    const BudgetRow& row = p.budget[i];
    const double contribution = std::abs(row.contribution());
    const double part = whole > 0.0 ? contribution / whole : 0.0;
    table.rows.push_back({test.record.title, stage_text(p.stage, test), row.input.label,
                          points_of_loss(p, contribution), 100.0 * part * part,
                          row.input.standard_u, units[i].size, row.sensitivity,
                          degrees_cell(row.input.degrees_of_freedom)});
  }
}

std::string compared_text(Comparison compare) {
  switch (compare) {
  case Comparison::same_panel:
    return "the panel with itself before";
  case Comparison::control_panel:
    return "with a control panel";
  case Comparison::sibling_panel:
    return "with unstruck units of its model";
  }
  fail_contract("unknown comparison");
}

/// "small: withstood; large: undecided".
std::string words_of(const Test& test, const Assessment& assessment) {
  std::string text;
  for (const SeriesVerdict& v : assessment.verdicts) {
    text += fmt::format("{}{}: {}", text.empty() ? "" : "; ", test.protocol.series[v.series].name,
                        word_text(v.word));
  }
  for (const StressVerdict& v : assessment.stresses) {
    const StressDone& done = test.record.stresses[v.done];
    text += fmt::format("{}{}: {}", text.empty() ? "" : "; ",
                        test.protocol.stresses[done.stress].name, word_text(v.word));
  }
  return text;
}

std::string remark_of(const PowerResult* p) {
  if (p == nullptr) return "power not compared";
  return p->estimated() ? "" : obstacle_sentence(p->obstacle, p->obstacle_subject);
}

void add_loss(std::vector<DataCell>& cells, const PowerResult* p) {
  if (p == nullptr || !p->estimated()) {
    cells.resize(cells.size() + 14);
    return;
  }
  const LossEstimate& e = p->estimate;
  cells.insert(cells.end(), {100.0 * e.loss().si(), 100.0 * e.low().si(), 100.0 * e.high().si(),
                             real_answer(*p), 100.0 * p->limit.si(), beyond_answer(*p),
                             p->usable() ? DataCell(100.0 * p->smallest_shown.si()) : DataCell(),
                             p->usable() ? probability_text(e.probability_above(p->limit)) : "",
                             100.0 * e.u_loss().si(), 100.0 * (1.0 - 2.0 * e.alpha), e.lambda,
                             e.u_lambda, e.expanded, degrees_cell(e.degrees_of_freedom)});
}

void add_price(std::vector<DataCell>& cells, const Test& test) {
  const auto& price = test.record.panel.price;
  const auto before = reference_power(test, {StageKind::before, 0});
  const auto per_watt = price_per_watt(test);
  cells.push_back(before ? DataCell(before->power.si()) : DataCell());
  cells.push_back(before ? DataCell(100.0 * before->relative_u.si()) : DataCell());
  cells.push_back(price ? DataCell(price->amount) : DataCell());
  cells.push_back(per_watt ? DataCell(per_watt->value) : DataCell());
  cells.emplace_back(price ? price->currency : "");
  cells.push_back(per_watt ? DataCell(per_watt->value * per_watt->relative_u.si()) : DataCell());
}

std::vector<DataCell> comparison_cells(const Judged& judged, const StageRow& row) {
  const Test& test = *judged.test;
  const PowerResult* p = row.power;
  std::vector<DataCell> cells{test.record.title, p != nullptr ? stage_text(p->stage, test) : "",
                              p != nullptr ? compared_text(test.protocol.measure.compare) : ""};
  add_loss(cells, p);
  add_price(cells, test);
  cells.emplace_back(words_of(test, *judged.assessment));
  cells.emplace_back(remark_of(p));
  return cells;
}

/// Decimals that every loss of the records is told with.
int most_loss_decimals(const ReportRows& rows) {
  int most = 0;
  for (const StageRow& row : rows.comparisons) {
    if (row.power != nullptr && row.power->estimated())
      most = std::max(most, loss_decimals(*row.power));
  }
  return most;
}

/// Decimals that every power before the shots is told with.
int most_power_decimals(const WriteUp& write_up) {
  int most = 1;
  for (const Judged& judged : write_up.judged) {
    if (const auto before = reference_power(*judged.test, {StageKind::before, 0}))
      most = std::max(most, power_decimals(before->power, before->relative_u));
  }
  return most;
}

}  // namespace

DataTable budget_table(const WriteUp& write_up) {
  DataTable table{"budget",
                  "What the uncertainty of each loss comes from, largest first: what each input "
                  "brings to it, as a standard uncertainty in percentage points of the loss",
                  {{"record", ""},
                   {"stage", ""},
                   {"input", ""},
                   {"contribution", "points", 3},
                   {"share of the variance", "%", 1},
                   for_machines({"u", "", 6}),
                   for_machines({"unit of u", ""}),
                   for_machines({"sensitivity", "", 6}),
                   for_machines({"degrees of freedom", "", 1})},
                  {}};
  for (const Judged& judged : write_up.judged) {
    for (const PowerResult* p : all_stages(*judged.assessment)) {
      if (p->estimated()) add_budget(table, *judged.test, *p);
    }
  }
  return table;
}

DataTable comparison_table(const WriteUp& write_up, const ReportRows& rows) {
  const int loss = most_loss_decimals(rows);
  DataTable table{"comparison",
                  "Losses of power and prices side by side. The price is per watt measured before "
                  "the shots, at 1000 W/m2 and 25 degC",
                  {{"record", ""},
                   {"stage", ""},
                   for_machines({"compared", ""}),
                   {column::loss, "%", loss},
                   {column::low, "%", loss},
                   {column::high, "%", loss},
                   {"a drop?", ""},
                   for_machines({"limit", "%", 1}),
                   {"beyond the limit?", ""},
                   for_machines({"smallest loss shown", "%", 1}),
                   for_machines({"probability above the limit", ""}),
                   for_machines({column::u_loss, "points", loss + 1}),
                   for_machines({"level of the interval", "%", 1}),
                   for_machines({column::lambda, "", 5}),
                   for_machines({column::u_lambda, "", 5}),
                   for_machines({column::expanded, "", 5}),
                   for_machines({"degrees of freedom", "", 1}),
                   for_machines({column::power_before, "W", most_power_decimals(write_up)}),
                   for_machines({column::u_power, "%", 1}),
                   for_machines({column::price, "", 2}),
                   {column::per_watt, "currency/W", 2},
                   {"currency", ""},
                   for_machines({column::u_per_watt, "currency/W", 3}),
                   {"verdict", ""},
                   {"remark", ""}},
                  {}};
  for (const StageRow& row : rows.comparisons)
    table.rows.push_back(comparison_cells(write_up.judged[row.record], row));
  return table;
}

}  // namespace hailwright
