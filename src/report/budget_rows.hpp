#pragma once

#include <cstddef>
#include <string>
#include <vector>

#include "hailwright/evaluate/power.hpp"

namespace hailwright {

/// A row of the uncertainty budget as people see it: in the table and in the picture.
struct ShownBudgetRow {
  std::string label;
  double points = 0.0;    ///< standard uncertainty in percentage points of the loss
  std::string number;     ///< `points` as it is printed: "0.47"
  std::string share;      ///< of the variance: "46 %"
  bool together = false;  ///< all rows as one: the last
};

/// The budget largest first; rows that would print as 0.00 points are one row of others, and the
/// last is all together. Contract: an estimated result.
std::vector<ShownBudgetRow> shown_budget(const PowerResult& power);

/// Percentage points of the loss that a small change of lambda makes: 100 e^lambda times it.
double points_of_loss(const PowerResult& power, double of_lambda);

/// Indices of the rows by the size of what they contribute; equal ones keep their order.
std::vector<std::size_t> largest_first(const std::vector<BudgetRow>& budget);

/// The units in which an input of the budget is told.
struct InputUnit {
  const char* size;         ///< SI unit: "W/m2", "1" for a share
  const char* sensitivity;  ///< of lambda to it: "m2/W"
  // For a pocket calculator: size x sensitivity is per cent of lambda.
  const char* shown_size;           ///< "W/m2", "%"
  const char* shown_sensitivity;    ///< "%/(W/m2)"; empty for a pure number
  double shown_size_factor;         ///< shown number = factor x SI number
  double shown_sensitivity_factor;  ///< likewise
};

/// For each row of the result's budget, by where the input enters the formula of the normalised
/// power; scatter of ln P itself is a share. Contract: an estimated result.
std::vector<InputUnit> input_units(const PowerResult& power);

}  // namespace hailwright
