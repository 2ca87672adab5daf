#include "report/budget_rows.hpp"

#include <algorithm>
#include <cmath>
#include <numeric>

#include "hailwright/core/contract.hpp"
#include "hailwright/core/quantity_text.hpp"
#include "report/sentences.hpp"
#include "report/words.hpp"

namespace hailwright {

namespace {

constexpr InputUnit share_unit{"1", "1", "%", "", 100.0, 1.0};

InputUnit unit_of(ErrorSlot slot) {
  switch (slot) {
  case ErrorSlot::meter_gain:
  case ErrorSlot::sun_gain:
  case ErrorSlot::factor:
    return share_unit;
  case ErrorSlot::meter_offset:
    return {"W", "1/W", "W", "%/W", 1.0, 100.0};
  case ErrorSlot::sun_offset:
    return {"W/m2", "m2/W", "W/m2", "%/(W/m2)", 1.0, 100.0};
  case ErrorSlot::temperature:
  case ErrorSlot::cell_above_back:
    return {"K", "1/K", "K", "%/K", 1.0, 100.0};
  case ErrorSlot::coefficient:
    return {"1/K", "K", "%/K", "K", 100.0, 1.0};
  }
  fail_contract("unknown slot of an error");
}

}  // namespace

std::vector<ShownBudgetRow> shown_budget(const PowerResult& p) {
  std::vector<ShownBudgetRow> rows;
  int small = 0;
  for (const BudgetLine& line : summarise(p.budget)) {
    const double points = points_of_loss(p, line.standard_u);
    const std::string number = fixed(points, 2);
    if (number == "0.00") {
      ++small;
    } else {
      rows.push_back({line.label, points, number, percent_text(line.share, 0), false});
    }
  }
  if (small > 0) {
    rows.push_back(
        {counted(small, "other") + " that cancel or are small", 0.0, "0.00", "0 %", false});
  }
  const double all = points_of_loss(p, p.estimate.u_lambda);
  rows.push_back({"together", all, fixed(all, 2), "100 %", true});
  return rows;
}

double points_of_loss(const PowerResult& power, double of_lambda) {
  return 100.0 * std::exp(power.estimate.lambda) * of_lambda;
}

std::vector<std::size_t> largest_first(const std::vector<BudgetRow>& budget) {
  std::vector<std::size_t> order(budget.size());
  std::iota(order.begin(), order.end(), 0UL);
  std::stable_sort(order.begin(), order.end(), [&](std::size_t x, std::size_t y) {
    return std::abs(budget[x].contribution()) > std::abs(budget[y].contribution());
  });
  return order;
}

std::vector<InputUnit> input_units(const PowerResult& p) {
  // The budget begins with the model's inputs, in their order; rows of scatter follow.
  std::vector<InputUnit> units(p.budget.size(), share_unit);
  for (const PowerModel::Term& term : p.model->terms) {
    for (const PowerModel::Link& link : term.links)
      units[link.input] = unit_of(link.slot);
  }
  return units;
}

}  // namespace hailwright
