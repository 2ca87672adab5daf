#include "report/report_json_parts.hpp"

#include "report/plan_sentences.hpp"
#include "report/report_json_words.hpp"

namespace hailwright::json {

namespace {

/// As the protocol states it, else the default.
Json stated_or(const std::optional<Ratio>& value, const SourceSpan& span, Ratio otherwise,
               DefaultId id, Ledger& ledger) {
  return value ? ledger.stated(*value, span) : ledger.computed(otherwise, {default_source(id)});
}

Json decision(const DecisionRule& rule, Ledger& ledger) {
  return {{"limit", ledger.stated(rule.limit, rule.limit_origin)},
          {"limit_answered_by", rule.simple ? "estimate" : "interval"},
          {"risk", stated_or(rule.risk, rule.origin, defaults::risk, DefaultId::risk, ledger)},
          {"see", ledger.stated(rule.see, rule.origin)},
          {"see_chance", stated_or(rule.see_chance, rule.origin, defaults::see_chance,
                                   DefaultId::see_chance, ledger)},
          {"looks", rule.looks},
          {"judges_power", rule.judges_power}};
}

Json setup_scatter(const MeasurementPlan& m, const Ledger& ledger) {
  Json list = Json::array();
  for (const SetupComponent& c : m.setup_scatter) {
    list.push_back({{"name", c.name},
                    {"of", c.of ? Json(word(*c.of)) : Json(nullptr)},
                    {"standard_uncertainty", ledger.stated(c.standard_u, c.origin)},
                    {"shape", word(c.shape)},
                    {"degrees_of_freedom", degrees_of_freedom(c.degrees_of_freedom)}});
  }
  return list;
}

Json cell_above_back(const MeasurementPlan& m, const Ledger& ledger) {
  if (!m.cell_above_back) return nullptr;
  Json j = ledger.stated(m.cell_above_back->value, m.cell_above_back->origin);
  j["standard_uncertainty"] = finite(m.cell_above_back->standard_u());
  return j;
}

Json measurement(const MeasurementPlan& m, const Ledger& ledger) {
  return {{"compare", word(m.compare)},
          {"set_ups_before", or_null(m.before)},
          {"set_ups_after", or_null(m.after)},
          {"readings", or_null(m.readings)},
          {"meters", or_null(m.meters)},
          {"siblings", or_null(m.siblings)},
          {"maximum_power", m.maximum_power ? Json(word(*m.maximum_power)) : Json(nullptr)},
          {"load", words_or_null(m.load)},
          {"redone", redone(m.redone)},
          {"set_up_scatter", setup_scatter(m, ledger)},
          {"day", ledger.stated(m.day, m.origin)},
          {"stage", ledger.stated(m.stage, m.origin)},
          {"control_stability", ledger.stated(m.control_stability, m.origin)},
          {"unit_tolerance", ledger.stated(m.unit_tolerance, m.origin)},
          {"fitted_trend", m.fitted_trend},
          {"readings_independent", words_or_null(m.readings_independent)},
          {"cell_above_back", cell_above_back(m, ledger)}};
}

Json planned(const Test& test) {
  const auto& line = test.record.planned;
  return {{"date", line ? Json(line->date) : Json(nullptr)},
          {"mark", line ? Json(text(line->mark)) : Json(nullptr)},
          {"sentence", plan_kept_sentence(test)}};
}

}  // namespace

Json redone(const std::optional<std::vector<Redone>>& steps) {
  if (!steps) return nullptr;
  Json list = Json::array();
  for (const Redone step : *steps)
    list.push_back(word(step));
  return list;
}

Json protocol(const Test& test, Ledger& ledger) {
  const Protocol& p = test.protocol;
  const bool hail = !p.series.empty();
  return {{"title", p.title},
          {"where", ledger.where(p.origin)},
          {"mark", text(p.mark)},
          {"planned", planned(test)},
          {"decision", decision(p.decide, ledger)},
          {"measurement", measurement(p.measure, ledger)},
          {"launch", hail ? launch(p.launch, ledger) : Json(nullptr)},
          {"speed", hail ? speed_method(p.speed, ledger) : Json(nullptr)},
          {"ice", hail ? ice(p.ice, ledger) : Json(nullptr)},
          {"tools", tools(p.tools, ledger)},
          {"safety", safety(p, ledger)}};
}

}  // namespace hailwright::json
