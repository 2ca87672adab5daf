#include "hailwright/core/contract.hpp"
#include "report/judgement_shading.hpp"
#include "report/readings_json_parts.hpp"
#include "report/report_json_parts.hpp"

namespace hailwright::json {

namespace {

constexpr std::string_view shading_method = "method-partial-shading";

std::string_view bypass_word(BypassWord bypass_word) {
  switch (bypass_word) {
  case BypassWord::as_expected:
    return "as expected";
  case BypassWord::smaller:
    return "smaller";
  case BypassWord::larger:
    return "larger";
  case BypassWord::cannot_tell:
    return "cannot tell";
  }
  fail_contract("unknown word");
}

Json rounds(const ShadeTrial& trial, const ShadingResult& r, Ledger& ledger) {
  Json list = Json::array();
  for (std::size_t i = 0; i < trial.rounds.size(); ++i) {
    const ShadeRound& round = trial.rounds[i];
    const SourceSpan& at = round.origin;
    list.push_back({{"where", ledger.where(at)},
                    {"free", ledger.stated(round.free, at)},
                    {"shaded", ledger.stated(round.shaded, at)},
                    {"sun_free", ledger.stated(round.sun_free, at)},
                    {"sun_shaded", ledger.stated(round.sun_shaded, at)},
                    {"back_free", ledger.stated(round.back_free, at)},
                    {"back_shaded", ledger.stated(round.back_shaded, at)},
                    {"left", ledger.computed(r.rounds_left.at(i), {shading_method})}});
  }
  return list;
}

Json loss(const ShadingResult& r, Ledger& ledger) {
  if (!r.left) return nullptr;
  Json sentences = list_of(shading_basis_sentences(r));
  sentences.insert(sentences.begin(), shading_loss_sentence(r));
  return {{"loss", ledger.estimated(r.loss.si(), r.left->standard_u.si(),
                                    r.left->degrees_of_freedom, "1", {shading_method})},
          {"low", ledger.computed(r.low, {shading_method})},
          {"high", ledger.computed(r.high, {shading_method})},
          {"level", 0.95},
          {"by_logarithm", r.log_left.has_value()},
          {"scatter_in_it", r.scatter_seen},
          {"sun_typed_once", r.sun_typed_once},
          {"back_typed_once", r.back_typed_once},
          {"budget_of_what_is_left", log_budget(r.budget)},
          {"sentences", std::move(sentences)}};
}

Json bypass(const ShadeTrial& trial, const ShadingResult& r, Ledger& ledger) {
  if (!r.bypass) return nullptr;
  const BypassCheck& b = *r.bypass;
  const SourceSpan& at = trial.origin;
  return {{"word", bypass_word(b.word)},
          {"open_voltage_free", ledger.stated(trial.open_free, at)},
          {"open_voltage_shaded", ledger.stated(trial.open_shaded, at)},
          {"substrings_shaded", b.shaded},
          {"substrings", b.substrings ? Json(*b.substrings) : Json()},
          {"expected_drop", ledger.computed(b.expected, {shading_method})},
          {"drop", ledger.estimated(b.drop.value.si(), b.drop.standard_u.si(),
                                    b.drop.degrees_of_freedom, "V", {shading_method})},
          {"half_width_95", ledger.computed(b.half_width, {shading_method})},
          {"budget", log_budget(b.budget)},
          {"sentences", list_of(bypass_sentences(trial, b))}};
}

Json rests_on(const ShadingResult& r, Ledger& ledger) {
  Json ids = Json::array({ledger.use(shading_method), ledger.use("method-instruments-and-scopes")});
  if (r.left) ids.push_back(ledger.use("method-normalised-power"));
  for (const DefaultId id : r.assumptions.used())
    ids.push_back(ledger.use(default_source(id)));
  return ids;
}

}  // namespace

Json shading(const Judged& judged, Ledger& ledger) {
  Json list = Json::array();
  for (const ShadingResult& r : judged.assessment->shading) {
    const ShadeTrial& trial = judged.test->record.shading.at(r.trial);
    list.push_back({{"shade", trial.shade},
                    {"where", ledger.where(trial.origin)},
                    {"stage", trial.after ? "after" : "before"},
                    {"date", words_or_null(trial.date)},
                    {"rounds", rounds(trial, r, ledger)},
                    {"power", loss(r, ledger)},
                    {"bypass", bypass(trial, r, ledger)},
                    {"assumed", log_assumed(r.assumptions)},
                    {"sources", rests_on(r, ledger)}});
  }
  return list;
}

}  // namespace hailwright::json
