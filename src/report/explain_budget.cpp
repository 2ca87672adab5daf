// Steps 4 and 5 of an explanation: every input, and all of them together.
#include "report/explanation.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <set>

#include "hailwright/core/contract.hpp"
#include "hailwright/core/quantity_text.hpp"
#include "hailwright/metrology/distributions.hpp"
#include "report/budget_rows.hpp"
#include "report/sentences.hpp"
#include "report/words.hpp"

namespace hailwright {

namespace {

std::string shape_text(const BudgetInput& input) {
  switch (input.shape) {
  case Shape::normal:
    if (std::isfinite(input.degrees_of_freedom)) {
      return fmt::format("t, nu {}", freedom_text(input.degrees_of_freedom));
    }
    return "normal";
  case Shape::rectangular:
    return "rectangular";
  case Shape::triangular:
    return "triangular";
  case Shape::arcsine:
    return "arcsine";
  }
  fail_contract("unknown shape");
}

const char* scope_text(Scope scope) {
  switch (scope) {
  case Scope::reading:
    return "reading";
  case Scope::setup:
    return "set-up";
  case Scope::day:
    return "day";
  case Scope::stage:
    return "stage";
  case Scope::record:
    return "record";
  }
  fail_contract("unknown scope");
}

/// What tells inputs of one label apart: the ends of their ids.
std::string which_one(const std::string& id) {
  static const std::set<std::string> parts_of_a_tool{"gain", "offset", "digits", "between", "each"};
  std::vector<std::string> parts;
  for (std::size_t at = 0; at <= id.size();) {
    const std::size_t end = std::min(id.find('/', at), id.size());
    parts.push_back(id.substr(at, end - at));
    at = end + 1;
  }
  const bool two = parts.size() > 1 && (parts_of_a_tool.contains(parts[1]) || parts[0] == "setup");
  parts.erase(parts.begin(), parts.begin() + (two ? 2 : 1));
  return parts.empty() ? "" : fmt::format(" ({})", fmt::join(parts, ", "));
}

/// Points of the loss that a row adds, with its sign.
double points_of(const PowerResult& p, const BudgetRow& row) {
  return points_of_loss(p, row.contribution());
}

std::string with_unit(double value, const char* unit) {
  constexpr double nothing = 1e-12;
  const std::string number = std::abs(value) < nothing ? "0" : significant(value, 4);
  return *unit == '\0' ? number : fmt::format("{} {}", number, unit);
}

Table inputs_table(const PowerCase& power) {
  Table table{"",
              {{"input"},
               {"u", Align::right},
               {"shape"},
               {"draw per"},
               {"sensitivity", Align::right},
               {"points", Align::right}},
              {}};
  const std::vector<InputUnit> units = input_units(power.result);
  for (const std::size_t i : largest_first(power.result.budget)) {
    const BudgetRow& row = power.result.budget[i];
    const InputUnit& unit = units[i];
    table.rows.push_back(
        {row.input.label + which_one(row.input.id),
         with_unit(row.input.standard_u * unit.shown_size_factor, unit.shown_size),
         shape_text(row.input), scope_text(row.input.scope),
         with_unit(row.sensitivity * unit.shown_sensitivity_factor, unit.shown_sensitivity),
         fixed(std::abs(points_of(power.result, row)), 4)});
  }
  return table;
}

/// Inputs of one draw for the whole record that add nothing: they sit on both sides of the
/// comparison. Parts that are drawn anew are not said to cancel (MEASUREMENT M3).
std::vector<std::string> cancelling(const PowerResult& p) {
  constexpr double least_points = 0.005;
  std::vector<std::string> labels;
  for (const BudgetRow& row : p.budget) {
    const bool shared = row.input.scope == Scope::record;
    const std::string label = row.input.label + which_one(row.input.id);
    if (shared && std::abs(points_of(p, row)) < least_points) labels.push_back(label);
  }
  return labels;
}

}  // namespace

Step explain_inputs(const PowerCase& power) {
  const PowerResult& p = power.result;
  Step step;
  step.title = "4. Everything that may be wrong";
  step.what = {
      "Each error is one input, however many readings it touches, and one draw of it serves all "
      "that share it. The sensitivity says by how much lambda moves with it; it is exact, the sum "
      "over all readings with their weights."};
  if (const auto labels = cancelling(p); !labels.empty()) {
    step.what.push_back(fmt::format(
        "These cancel, or nearly: {}. One and the same error sits in the readings on both sides "
        "of the comparison, so it drops out as far as those readings are alike.",
        fmt::join(labels, "; ")));
  }
  step.what.emplace_back(
      "The coefficient of temperature acts only through the difference of the cells' temperatures, "
      "digits and offsets only through the difference of the readings.");
  step.tables = {inputs_table(power)};
  step.formula = {"points = e^lambda x u x sensitivity, in points of per cent of the loss"};
  step.here = {fmt::format("e^lambda = {}", six(std::exp(p.estimate.lambda)))};
  step.source = "rules M1 and M3; JCGM 100:2008, 4.3 (shapes), 5.1.3 (sensitivities), F.1.2.3 "
                "(shared causes)";
  step.pages = method_pages({"instruments-and-scopes"});
  return step;
}

namespace {

/// nu_eff with the numbers of the rows that have finite degrees of freedom.
std::string welch_line(const PowerResult& p) {
  std::vector<std::string> parts;
  constexpr double least_points = 0.00005;
  for (const std::size_t i : largest_first(p.budget)) {
    const BudgetRow& row = p.budget[i];
    const double points = std::abs(points_of(p, row));
    if (!std::isfinite(row.input.degrees_of_freedom) || points < least_points) continue;
    parts.push_back(
        fmt::format("{}^4/{}", fixed(points, 4), freedom_text(row.input.degrees_of_freedom)));
  }
  const std::string nu = freedom_text(p.estimate.degrees_of_freedom);
  if (parts.empty()) return "nothing has limited degrees of freedom: nu_eff is " + nu;
  const double all = 100.0 * p.estimate.u_loss().si();
  return fmt::format("nu_eff = {}^4 / ({}) = {}", fixed(all, 4), fmt::join(parts, " + "), nu);
}

void expanded_lines(Step& step, const PowerResult& p) {
  const LossEstimate& e = p.estimate;
  const double t = t_quantile(1.0 - e.alpha, e.degrees_of_freedom);
  const Combined observed = combine(p.budget, Evaluation::type_a);
  step.here.push_back(fmt::format("t({}; {}) = {}; t u = {}", plain_number(1.0 - e.alpha, 6),
                                  freedom_text(e.degrees_of_freedom), fixed(t, 4),
                                  six(t * e.u_lambda)));
  if (observed.standard_u <= 0.0) return;
  const double t_observed = t_quantile(1.0 - e.alpha, observed.degrees_of_freedom);
  const double guard = t_observed * observed.standard_u;
  step.here.push_back(
      fmt::format("t({}; {}) = {}; t u_A = {}, which is {}: U = {}", plain_number(1.0 - e.alpha, 6),
                  freedom_text(observed.degrees_of_freedom), fixed(t_observed, 4), six(guard),
                  guard > t * e.u_lambda ? "larger" : "not larger", six(e.expanded)));
}

}  // namespace

Step explain_together(const PowerCase& power) {
  const PowerResult& p = power.result;
  const LossEstimate& e = p.estimate;
  Step step;
  step.title = "5. Together";
  step.what = {"Independent errors add in squares. The interval is made in lambda, U each way, and "
               "its ends are turned into losses."};
  if (e.u_lambda <= 0.0) {
    step.here = {"nothing uncertain is stated: the interval is a point"};
    step.source = "rule M2";
    step.pages = method_pages({"interval-and-decision"});
    return step;
  }
  step.formula = {
      "u(L) = root of the sum of the squared points of step 4; u = u(L) / e^lambda",
      "nu_eff = u^4 / sum of (part^4 / its nu), not truncated",
      "U = the larger of t(1 - alpha; nu_eff) u and t(1 - alpha; nu_A) u_A: adding what "
      "was not observed must not narrow the interval",
      "low = 1 - e^(lambda + U), high = 1 - e^(lambda - U)"};
  step.here = {
      fmt::format("u(L) = {} points, u = {}", fixed(100.0 * e.u_loss().si(), 4), six(e.u_lambda)),
      welch_line(p)};
  expanded_lines(step, p);
  step.here.push_back(
      fmt::format("lambda from {} to {}", six(e.lambda - e.expanded), six(e.lambda + e.expanded)));
  step.here.push_back(fmt::format("loss from {} % to {} %, at {}", hundredfold(e.low().si(), 3),
                                  hundredfold(e.high().si(), 3), level_text(e.alpha)));
  step.source = "rules M2 and M4; JCGM 100:2008, 5.1.2 (in squares), G.4.1 (Welch and "
                "Satterthwaite), G.3.2 (t)";
  step.pages = method_pages({"interval-and-decision"});
  return step;
}

}  // namespace hailwright
