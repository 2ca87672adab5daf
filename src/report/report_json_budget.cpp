#include "report/report_json_parts.hpp"

#include <cmath>

#include "report/budget_rows.hpp"
#include "report/report_json_words.hpp"

namespace hailwright::json {

namespace {

constexpr std::string_view scatter = "method-setup-scatter";
constexpr std::string_view scopes = "method-instruments-and-scopes";
constexpr std::string_view normalised = "method-normalised-power";

// Budget.

Json row(const BudgetRow& r, const InputUnit& unit, const LossEstimate& estimate, Ledger& ledger) {
  const std::string_view source = r.input.evaluation == Evaluation::type_a ? scatter : scopes;
  const double part = r.contribution() / estimate.u_lambda;
  return {{"id", r.input.id},
          {"label", r.input.label},
          {"scope", word(r.input.scope)},
          {"evaluation", word(r.input.evaluation)},
          {"shape", word(r.input.shape)},
          {"standard_uncertainty", ledger.computed(r.input.standard_u, unit.size, source)},
          {"degrees_of_freedom", degrees_of_freedom(r.input.degrees_of_freedom)},
          {"sensitivity", ledger.computed(r.sensitivity, unit.sensitivity, scopes)},
          {"contribution", ledger.computed(r.contribution(), "1", scopes)},
          {"contribution_to_loss",
           ledger.computed(std::exp(estimate.lambda) * r.contribution(), "1", scopes)},
          {"share", estimate.u_lambda > 0.0 ? ledger.computed(part * part, "1", scopes) : Json()}};
}

Json line(const BudgetLine& l, const LossEstimate& estimate, Ledger& ledger) {
  return {{"label", l.label},
          {"contribution", ledger.computed(l.standard_u, "1", scopes)},
          {"contribution_to_loss",
           ledger.computed(std::exp(estimate.lambda) * l.standard_u, "1", scopes)},
          {"share", ledger.computed(l.share, {scopes})}};
}

// Comparison.

Json set_up_values(const std::vector<SetupValue>& block, const Test& test, Ledger& ledger) {
  const auto or_null = [&](const std::optional<double>& v, const char* unit,
                           std::string_view source) {
    return v ? ledger.computed(*v, unit, source) : Json(nullptr);
  };
  Json list = Json::array();
  for (const SetupValue& v : block) {
    list.push_back({{"set_up", test.record.setups[v.setup].name},
                    {"mean", ledger.computed(v.q, "1", normalised)},
                    {"readings", v.readings},
                    {"reading_sd", or_null(v.reading_sd, "1", scatter)},
                    {"drift_per_hour", or_null(v.drift_per_hour, "1/h", "method-drift")}});
  }
  return list;
}

Json siblings(const PowerModel& m, const Test& test, Ledger& ledger) {
  constexpr std::string_view source = "method-control-and-siblings";
  if (!m.siblings) return nullptr;
  Json units = Json::array();
  for (const SiblingSpread::Unit& u : m.siblings->units) {
    units.push_back({{"unit", test.record.siblings[u.unit].label},
                     {"mean", ledger.computed(u.q, "1", source)},
                     {"set_ups", u.setups}});
  }
  return {{"units", std::move(units)},
          {"sd", m.siblings->sd ? ledger.computed(*m.siblings->sd, "1", source) : Json(nullptr)},
          {"assumed", m.siblings->assumed}};
}

Json trend(const PowerModel& m, Ledger& ledger) {
  constexpr std::string_view source = "method-drift";
  if (!m.trend) return nullptr;
  Json slope = ledger.computed(m.trend->per_day, "1/d", source);
  slope["standard_uncertainty"] = finite(m.trend->u_per_day);
  return {{"per_day", std::move(slope)},
          {"uncertainty_without", ledger.computed(m.trend->u_without, "1", source)}};
}

Json terms(const PowerModel& m, Ledger& ledger) {
  Json list = Json::array();
  for (const PowerModel::Term& t : m.terms) {
    list.push_back(
        {{"reading", t.index + 1},
         {"normalised_power", ledger.computed(normalised_power(t.reading), {normalised})},
         {"weight", ledger.computed(t.weight, "1", scatter)}});
  }
  return list;
}

}  // namespace

Json comparison(const PowerModel& m, const Test& test, Ledger& ledger) {
  const auto or_null = [&](const std::optional<double>& v) {
    return v ? ledger.computed(*v, "1", scatter) : Json(nullptr);
  };
  return {{"compare", word(test.protocol.measure.compare)},
          {"unit", m.unit_is_day ? "day" : "set_up"},
          {"units_before", m.units_from},
          {"units_after", m.units_to},
          {"units_baseline", m.units_baseline},
          {"scatter", or_null(m.pooled_sd)},
          {"scatter_degrees_of_freedom", degrees_of_freedom(m.observed_dof)},
          {"variance_ratio", or_null(m.variance_ratio_p)},
          {"before", set_up_values(m.from, test, ledger)},
          {"after", set_up_values(m.to, test, ledger)},
          {"baseline", set_up_values(m.baseline, test, ledger)},
          {"siblings", siblings(m, test, ledger)},
          {"trend", trend(m, ledger)},
          {"terms", terms(m, ledger)}};
}

Json budget(const PowerResult& p, Ledger& ledger) {
  const std::vector<InputUnit> units = input_units(p);
  Json rows = Json::array();
  for (std::size_t i = 0; i < p.budget.size(); ++i)
    rows.push_back(row(p.budget[i], units[i], p.estimate, ledger));
  Json lines = Json::array();
  for (const BudgetLine& l : summarise(p.budget))
    lines.push_back(line(l, p.estimate, ledger));
  return {{"rows", std::move(rows)}, {"lines", std::move(lines)}};
}

}  // namespace hailwright::json
