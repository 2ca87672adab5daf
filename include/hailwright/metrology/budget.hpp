#pragma once

#include <limits>
#include <span>
#include <string>
#include <vector>

#include "hailwright/core/quantity.hpp"
#include "hailwright/metrology/stated.hpp"

namespace hailwright {

/// How far an error is shared (MEASUREMENT M1). One draw of it serves everything inside its scope.
enum class Scope { reading, setup, day, stage, record };

/// Whether a component was evaluated from repeats or otherwise (JCGM 100:2008, 2.3.2 and 2.3.3).
enum class Evaluation { type_a, type_b };

/// One input quantity whose best estimate is known and whose error is not.
struct BudgetInput {
  std::string id;     ///< unique in its budget: "sun/gain"
  std::string label;  ///< for a reader: "sun meter, gain"
  Scope scope = Scope::record;
  Evaluation evaluation = Evaluation::type_b;
  double standard_u = 0.0;  ///< in the input's own unit
  double degrees_of_freedom = std::numeric_limits<double>::infinity();
  /// What a random trial draws: this shape with that standard deviation; for `normal` with finite
  /// degrees of freedom t scaled by `standard_u` (JCGM 101:2008, 6.4.9).
  Shape shape = Shape::normal;
};

/// An input with its effect on the result: one row of the budget.
struct BudgetRow {
  BudgetInput input;
  double sensitivity = 0.0;  ///< partial derivative of the result
  [[nodiscard]] double contribution() const { return sensitivity * input.standard_u; }
};

/// What independent inputs make together (JCGM 100:2008, 5.1.2 and G.4.1). Inputs that share a
/// cause must be one input: correlation is not added afterwards.
struct Combined {
  double standard_u = 0.0;
  /// After Welch and Satterthwaite, a real number, never truncated; infinite when all inputs are.
  double degrees_of_freedom = std::numeric_limits<double>::infinity();
};
Combined combine(std::span<const BudgetRow> rows);
/// The same for the rows of one kind of evaluation.
Combined combine(std::span<const BudgetRow> rows, Evaluation only);

/// One line of a budget as it is printed: inputs of one label, such as the sky of two days,
/// together.
struct BudgetLine {
  std::string label;
  double standard_u = 0.0;  ///< in the result
  Ratio share;              ///< of the variance
};
/// The lines of a budget, largest first.
std::vector<BudgetLine> summarise(std::span<const BudgetRow> rows);

/// Effective degrees of freedom of independent contributions (JCGM 100:2008, eq. G.2b).
/// `contributions` and `degrees_of_freedom` are of one size; all zero gives infinity.
double welch_satterthwaite(std::span<const double> contributions,
                           std::span<const double> degrees_of_freedom);

/// Two independent contributions together: root of the sum of squares, effective degrees of
/// freedom.
Combined combine(Combined a, Combined b);

/// Standard uncertainty from sensitivities, standard uncertainties and a correlation matrix given
/// row by row (JCGM 100:2008, eq. 16). All sizes n, n and n*n.
double propagate_correlated(std::span<const double> sensitivities, std::span<const double> u,
                            std::span<const double> correlation);

}  // namespace hailwright
