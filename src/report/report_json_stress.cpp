#include "hailwright/core/contract.hpp"
#include "report/report_json_parts.hpp"
#include "report/sentences.hpp"
#include "report/stress_sentences.hpp"

namespace hailwright::json {

namespace {

/// Weak sides are judged as those of a shot are.
constexpr std::string_view strength_method = "method-shot-strength";

std::string_view stress_word(StressSide side) {
  switch (side) {
  case StressSide::not_weaker:
    return "not_weaker";
  case StressSide::weaker:
    return "weaker";
  case StressSide::cannot_tell:
    return "cannot_tell";
  }
  fail_contract("unknown StressSide");
}

std::string_view stress_word(StressDamageBy by) {
  switch (by) {
  case StressDamageBy::at_level:
    return "at_level";
  case StressDamageBy::perhaps_more:
    return "perhaps_more";
  case StressDamageBy::below_level:
    return "below_level";
  }
  fail_contract("unknown StressDamageBy");
}

std::string_view stress_word(StressBecause because) {
  switch (because) {
  case StressBecause::new_major_defect:
    return "new_major_defect";
  case StressBecause::power_beyond:
    return "power_beyond";
  case StressBecause::not_told:
    return "not_told";
  case StressBecause::weaker:
    return "weaker";
  case StressBecause::perhaps_weaker:
    return "perhaps_weaker";
  case StressBecause::together:
    return "together";
  case StressBecause::no_look_before:
    return "no_look_before";
  case StressBecause::no_look_after:
    return "no_look_after";
  case StressBecause::cell_share_not_stated:
    return "cell_share_not_stated";
  case StressBecause::power_missing:
    return "power_missing";
  case StressBecause::power_obstacle:
    return "power_obstacle";
  case StressBecause::power_not_deciding:
    return "power_not_deciding";
  case StressBecause::power_not_valid:
    return "power_not_valid";
  case StressBecause::power_undecided:
    return "power_undecided";
  case StressBecause::power_spoilt:
    return "power_spoilt";
  case StressBecause::damaged_before:
    return "damaged_before";
  case StressBecause::unsuited:
    return "unsuited";
  case StressBecause::defect_from_start:
    return "defect_from_start";
  case StressBecause::delivered:
    return "delivered";
  case StressBecause::looks_clean:
    return "looks_clean";
  case StressBecause::power_within:
    return "power_within";
  }
  fail_contract("unknown StressBecause");
}

/// {"key": "pressure", "text": "2400 Pa", "where": ...}: as typed, or as the level sets it.
Json values(const std::vector<StressKey>& keys, const StressValues& given, const Ledger& ledger) {
  Json list = Json::array();
  for (const StressKey& key : keys) {
    const auto value = given.find(std::string(key.key));
    if (value == given.end()) continue;
    list.push_back({{"key", key.key},
                    {"text", stress_value_text(key, value->second)},
                    {"where", ledger.where(value->second.origin)}});
  }
  return list;
}

Json level(const StressPlan& plan, Ledger& ledger) {
  if (plan.level == nullptr) return nullptr;
  return {{"name", plan.level->name}, {"source", ledger.use(plan.level->source)}};
}

Json quantity(const StressQuantity& q, Ledger& ledger) {
  const StressReached& r = q.reached;
  return {{"label", r.label},
          {"unit", r.unit},
          {"planned", finite(r.planned)},
          {"counts_from", finite(q.counts_from)},
          {"yes_or_no", r.yes_no},
          {"weak_when_low", r.weak_when_low},
          {"tolerance", finite(r.tolerance)},
          {"done", ledger.estimated(r.done.value.si(), r.done.standard_u.si(),
                                    r.done.degrees_of_freedom, r.unit, {strength_method})},
          {"low", ledger.computed(q.low, r.unit, strength_method)},
          {"high", ledger.computed(q.high, r.unit, strength_method)},
          {"chance_not_weaker", ledger.computed(q.chance_not_weaker, "1", strength_method)},
          {"side", stress_word(q.side)},
          {"not_stronger", q.not_stronger},
          {"taken", words_or_null(r.taken)},
          {"sentence", stress_quantity_sentence(q)}};
}

Json reasons(const StressVerdict& v, const Judged& judged, const Ledger& ledger) {
  Json list = Json::array();
  for (const StressReason& r : v.reasons) {
    list.push_back({{"reason", stress_word(r.because)},
                    {"subject", words_or_null(r.subject)},
                    {"where", ledger.where(r.where)},
                    {"sentence", stress_reason_sentence(r, v, *judged.test, *judged.assessment)}});
  }
  return list;
}

Json events(const std::vector<PanelEvent>& all, const Test& test) {
  Json names = Json::array();
  for (const PanelEvent& event : all) {
    names.push_back(event.hail
                        ? test.protocol.series[event.index].name
                        : test.protocol.stresses[test.record.stresses[event.index].stress].name);
  }
  return names;
}

Json index_or_null(const std::optional<std::size_t>& index) {
  return index ? Json(*index + 1) : Json(nullptr);
}

Json stages(const StressVerdict& v, const Judged& judged, Ledger& ledger) {
  if (!v.power) return nullptr;
  const PowerResult& p = judged.assessment->stress_power.at(*v.power);
  return {{"from", stage(p.from, *judged.test)},
          {"others_between", events(v.power_others, *judged.test)},
          {"result", power(p, judged, nullptr, ledger)}};
}

Json stress(const StressVerdict& v, const Judged& judged, Ledger& ledger) {
  const Test& test = *judged.test;
  const StressDone& done = test.record.stresses[v.done];
  const StressPlan& plan = test.protocol.stresses[done.stress];
  Json quantities = Json::array();
  for (const StressQuantity& q : v.quantities)
    quantities.push_back(quantity(q, ledger));
  return {{"name", plan.name},
          {"kind", plan.kind->word},
          {"where", ledger.where(done.origin)},
          {"level", level(plan, ledger)},
          {"planned", values(plan.kind->planned, plan.values, ledger)},
          {"done", values(plan.kind->done, done.values, ledger)},
          {"date", done.date.empty() ? test.record.date : done.date},
          {"after_hail", done.after_hail},
          {"note", words_or_null(done.note)},
          {"word", word_text(v.word)},
          {"reasons", reasons(v, judged, ledger)},
          {"quantities", std::move(quantities)},
          {"delivered", v.delivered},
          {"damage_by", v.damage_by ? Json(stress_word(*v.damage_by)) : Json(nullptr)},
          {"look_before", index_or_null(v.look_before)},
          {"look_after", index_or_null(v.look_after)},
          {"others_between_looks", events(v.look_others, test)},
          {"clean_looks", v.clean_looks},
          {"power_claimed", v.power_claimed},
          {"power", stages(v, judged, ledger)},
          {"not_equivalent", not_equivalent_sentence(*plan.kind)}};
}

}  // namespace

Json stresses(const Judged& judged, Ledger& ledger) {
  Json list = Json::array();
  for (const StressVerdict& v : judged.assessment->stresses)
    list.push_back(stress(v, judged, ledger));
  return list;
}

}  // namespace hailwright::json
