#include "evaluate/line_up_numbers.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <string_view>

#include "evaluate/panel_thermal.hpp"
#include "evaluate/reference_budget.hpp"
#include "evaluate/same_tools.hpp"

namespace hailwright {

namespace {

/// The parts of an id of the budget: "meter/gain/other".
std::vector<std::string_view> parts_of(std::string_view id) {
  std::vector<std::string_view> parts;
  while (true) {
    const std::size_t slash = id.find('/');
    parts.push_back(id.substr(0, slash));
    if (slash == std::string_view::npos) return parts;
    id.remove_prefix(slash + 1);
  }
}

/// Finds which errors of a record another record can share.
class ErrorKeys {
public:
  explicit ErrorKeys(const Test& test) : test_(test) {}

  /// Empty: the record's own.
  [[nodiscard]] std::string key(const BudgetInput& input) const {
    if (input.scope != Scope::record || input.evaluation != Evaluation::type_b) return {};
    const std::vector<std::string_view> parts = parts_of(input.id);
    if (parts[0] == "coefficient" || parts[0] == "cell") return of_model(parts, input);
    return of_instrument(parts);
  }

private:
  /// An instrument is known by its id; of a pair that differs from panel to panel nobody knows
  /// which of the two it was.
  [[nodiscard]] std::string of_instrument(const std::vector<std::string_view>& parts) const {
    const bool other = parts.size() == 3 && parts[2] == "other";
    if (parts.size() != 2 && !other) return {};
    if (other && !test_.record.tools_after) return {};
    const Tools& tools = other ? *test_.record.tools_after : test_.protocol.tools;
    const std::string* id = id_of(tools, parts[0]);
    if (id == nullptr || id->empty()) return {};
    return fmt::format("{}/{}/{}", parts[0], *id, parts[1]);
  }

  static const std::string* id_of(const Tools& tools, std::string_view kind) {
    if (kind == "meter") return &tools.meter.id;
    if (kind == "sun") return &tools.sun.id;
    if (kind == "thermometer") return &tools.thermometer.id;
    return nullptr;
  }

  /// One error a model: panels of the same name whose figures agree.
  [[nodiscard]] std::string of_model(const std::vector<std::string_view>& parts,
                                     const BudgetInput& input) const {
    const bool control = parts.size() == 2 && parts[1] == "control" && test_.record.control;
    const Panel& panel = control ? *test_.record.control : test_.record.panel;
    const PanelThermal t = panel_thermal(test_, control ? Role::control : Role::struck);
    const double value = parts[0] == "cell" ? t.cell_above_back.si() : t.gamma.si();
    return fmt::format("{}/{}/{} +- {}", parts[0], panel.name, value, input.standard_u);
  }

  const Test& test_;
};

LineUpNumber number_of(const Test& test, double log, const std::vector<BudgetRow>& rows) {
  const Combined all = combine(rows);
  return {log, line_up_errors(test, rows), all.standard_u, all.degrees_of_freedom};
}

/// A number that is another one by a factor without uncertainty, or such a factor over it.
LineUpNumber scaled(LineUpNumber number, double factor, double power = 1.0) {
  number.log = std::log(factor) + power * number.log;
  for (LineUpError& e : number.errors)
    e.contribution *= power;
  return number;
}

void add_power(const Test& test, std::map<LineUpQuantity, LineUpNumber>& numbers) {
  const auto reference = reference_budget(test);
  if (!reference) return;
  const LineUpNumber watts = number_of(test, reference->log_power, reference->rows);
  const Panel& panel = test.record.panel;
  using enum LineUpQuantity;
  const auto per = [&](LineUpQuantity quantity, double amount) {
    if (amount > 0.0) numbers.emplace(quantity, scaled(watts, 1.0 / amount));
  };
  if (panel.rated_power) per(share_of_rated, panel.rated_power->si());
  if (panel.size) per(power_per_area, (panel.size->long_side * panel.size->short_side).si());
  if (panel.weight) per(power_per_mass, panel.weight->si());
  if (panel.price && panel.price->amount > 0.0)
    numbers.emplace(price_per_watt, scaled(watts, panel.price->amount, -1.0));
  numbers.emplace(LineUpQuantity::power, watts);
}

}  // namespace

std::vector<LineUpError> line_up_errors(const Test& test, const std::vector<BudgetRow>& rows) {
  const ErrorKeys keys(test);
  std::vector<LineUpError> errors;
  for (const BudgetRow& row : rows) {
    if (row.contribution() == 0.0) continue;
    errors.push_back(
        {keys.key(row.input), row.contribution(), row.input.degrees_of_freedom, row.input.id});
  }
  return errors;
}

std::optional<ShadedNumber> line_up_shading(const Test& test,
                                            const std::vector<ShadingResult>& shading) {
  const ShadingResult* chosen = nullptr;
  for (const ShadingResult& r : shading) {
    if (!r.log_left || !r.scatter_seen) continue;
    const auto is_after = [&](const ShadingResult& s) {
      return test.record.shading[s.trial].after;
    };
    if (chosen == nullptr || (is_after(*chosen) && !is_after(r))) chosen = &r;
  }
  if (chosen == nullptr) return std::nullopt;
  const ShadeTrial& trial = test.record.shading[chosen->trial];
  const Estimate<Ratio>& log = chosen->log_left->estimate;
  ShadedNumber number{trial.shade,
                      {log.value.si(), line_up_errors(test, chosen->log_left->budget),
                       log.standard_u.si(), log.degrees_of_freedom}};
  // Which instruments read the panel after the shots is not known from the protocol's ids.
  if (trial.after) {
    for (LineUpError& e : number.left.errors)
      e.key.clear();
  }
  return number;
}

std::map<LineUpQuantity, LineUpNumber> line_up_numbers(const Test& test,
                                                       const PowerResult* compared) {
  std::map<LineUpQuantity, LineUpNumber> numbers;
  if (compared != nullptr) {
    numbers.emplace(LineUpQuantity::loss,
                    LineUpNumber{compared->estimate.lambda, line_up_errors(test, compared->budget),
                                 compared->estimate.u_lambda,
                                 compared->estimate.degrees_of_freedom});
  }
  add_power(test, numbers);
  return numbers;
}

}  // namespace hailwright
