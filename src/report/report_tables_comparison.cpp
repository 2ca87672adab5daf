// Tables of a write-up: the uncertainty budget, and all comparisons of power side by side.
#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <numeric>

#include "hailwright/core/contract.hpp"
#include "hailwright/evaluate/price.hpp"
#include "report/report_tables.hpp"
#include "report/sentences.hpp"
#include "report/shown_loss.hpp"

namespace hailwright {

namespace {

std::string_view unit_of(ErrorSlot slot) {
  switch (slot) {
  case ErrorSlot::meter_offset:
    return "W";
  case ErrorSlot::sun_offset:
    return "W/m2";
  case ErrorSlot::temperature:
  case ErrorSlot::cell_above_back:
    return "K";
  case ErrorSlot::coefficient:
    return "1/K";
  case ErrorSlot::meter_gain:
  case ErrorSlot::sun_gain:
  case ErrorSlot::factor:
    return "1";
  }
  fail_contract("unknown slot");
}

/// Units of the rows of a budget: inputs by where they enter the formula; scatter is a share.
std::vector<std::string> units_of(const PowerResult& p) {
  std::vector<std::string> units(p.budget.size(), "1");
  for (const PowerModel::Term& term : p.model->terms) {
    for (const PowerModel::Link& link : term.links)
      units[link.input] = unit_of(link.slot);
  }
  return units;
}

std::vector<std::size_t> largest_first(const std::vector<BudgetRow>& budget) {
  std::vector<std::size_t> order(budget.size());
  std::iota(order.begin(), order.end(), 0UL);
  std::stable_sort(order.begin(), order.end(), [&](std::size_t x, std::size_t y) {
    return std::abs(budget[x].contribution()) > std::abs(budget[y].contribution());
  });
  return order;
}

DataCell finite(double value) {
  return std::isfinite(value) ? DataCell(value) : DataCell();
}

void add_budget(DataTable& table, const Test& test, const PowerResult& p) {
  const std::vector<std::string> units = units_of(p);
  const double to_points = 100.0 * std::exp(p.estimate.lambda);
  const double whole = combine(p.budget).standard_u;
  for (const std::size_t i : largest_first(p.budget)) {
    const BudgetRow& row = p.budget[i];
    const double contribution = std::abs(row.contribution());
    const double part = whole > 0.0 ? contribution / whole : 0.0;
    table.rows.push_back({test.record.title, stage_text(p.stage, test), row.input.label,
                          row.input.standard_u, units[i], row.sensitivity, to_points * contribution,
                          finite(row.input.degrees_of_freedom), 100.0 * part * part});
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
  cells.insert(cells.end(), {e.lambda, e.u_lambda, e.expanded, finite(e.degrees_of_freedom),
                             100.0 * e.loss().si(), 100.0 * e.u_loss().si(), 100.0 * e.low().si(),
                             100.0 * e.high().si(), 100.0 * (1.0 - 2.0 * e.alpha),
                             100.0 * p->limit.si(), real_answer(*p), beyond_answer(*p),
                             p->usable() ? probability_text(e.probability_above(p->limit)) : "",
                             p->usable() ? DataCell(100.0 * p->smallest_shown.si()) : DataCell()});
}

void add_price(std::vector<DataCell>& cells, const Test& test) {
  const auto& price = test.record.panel.price;
  const auto before = reference_power(test, {StageKind::before, 0});
  const auto per_watt = price_per_watt(test);
  cells.push_back(before ? DataCell(before->power.si()) : DataCell());
  cells.push_back(before ? DataCell(100.0 * before->relative_u.si()) : DataCell());
  cells.push_back(price ? DataCell(price->amount) : DataCell());
  cells.emplace_back(price ? price->currency : "");
  cells.push_back(per_watt ? DataCell(per_watt->value) : DataCell());
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

}  // namespace

DataTable budget_table(const WriteUp& write_up) {
  DataTable table{"budget",
                  "What the uncertainty of each loss comes from, largest first: standard "
                  "uncertainty u of each input in its own unit (1: a share), sensitivity of lambda "
                  "to it, and what both make in percentage points of the loss; degrees of freedom "
                  "left blank are unlimited",
                  {{"record", ""},
                   {"stage", ""},
                   {"input", ""},
                   {"u", "", 6},
                   {"unit of u", ""},
                   {"sensitivity", "", 6},
                   {"contribution", "points", 3},
                   {"degrees of freedom", "", 1},
                   {"share of the variance", "%", 1}},
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
                  "Losses and prices side by side. The loss is 1 - e^lambda, its interval that of "
                  "lambda plus and minus U; the price is per watt measured before the shots, at "
                  "1000 W/m2 and 25 degC",
                  {{"record", ""},
                   {"stage", ""},
                   {"compared", ""},
                   {column::lambda, "", 5},
                   {column::u_lambda, "", 5},
                   {column::expanded, "", 5},
                   {"degrees of freedom", "", 1},
                   {column::loss, "%", loss},
                   {column::u_loss, "points", loss + 1},
                   {column::low, "%", loss},
                   {column::high, "%", loss},
                   {"level of the interval", "%", 1},
                   {"limit", "%", 1},
                   {"a drop?", ""},
                   {"beyond the limit?", ""},
                   {"probability above the limit", ""},
                   {"smallest loss shown", "%", 1},
                   {column::power_before, "W", 1},
                   {column::u_power, "%", 1},
                   {column::price, "", 2},
                   {"currency", ""},
                   {column::per_watt, "currency/W", 3},
                   {column::u_per_watt, "currency/W", 3},
                   {"words", ""},
                   {"remark", ""}},
                  {}};
  for (const StageRow& row : rows.comparisons)
    table.rows.push_back(comparison_cells(write_up.judged[row.record], row));
  return table;
}

}  // namespace hailwright
