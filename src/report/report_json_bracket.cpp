#include "report/judgement_bracket.hpp"
#include "report/report_json_parts.hpp"

namespace hailwright::json {

namespace {

constexpr const char* bracket_source = "method-threshold";
constexpr const char* energy_source = "method-shot-strength";

Json hit(const std::optional<BracketHit>& hit, const char* bound, const Test& test,
         Ledger& ledger) {
  if (!hit) return nullptr;
  const Shot& shot = test.record.shots.at(hit->shot);
  return {{"series", test.protocol.series.at(shot.series).name},
          {"throw", shot.number},
          {"energy", ledger.computed(hit->estimate, {energy_source})},
          {bound, ledger.computed(hit->bound, {bracket_source, energy_source})},
          {"look", hit->look + 1}};
}

}  // namespace

Json damage_bracket(const Judged& judged, Ledger& ledger) {
  const std::optional<DamageBracket>& b = judged.assessment->bracket;
  if (!b) return nullptr;
  const Test& test = *judged.test;
  return {{"without_new_defect", hit(b->borne, "at_least", test, ledger)},
          {"damaged_by", hit(b->damaged_by, "at_most", test, ledger)},
          {"confidence", ledger.computed(hit_confidence, "1", {bracket_source})},
          {"defect_seen", b->damage_seen},
          {"looked_before", !b->maybe_before},
          {"hits_between", b->hits_between},
          {"overlapping", b->overlapping()},
          {"sentences", bracket_sentences(test, *judged.assessment)}};
}

}  // namespace hailwright::json
