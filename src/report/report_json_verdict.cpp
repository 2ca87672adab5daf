#include "report/report_json_parts.hpp"

#include <algorithm>

#include "report/report_json_words.hpp"
#include "report/sentences.hpp"

namespace hailwright::json {

namespace {

Json covered(const Coverage& covers, const Test& test) {
  Json names = Json::array();
  for (std::size_t i = covers.first; i <= covers.last; ++i)
    names.push_back(test.protocol.series[i].name);
  return names;
}

Json reasons(const SeriesVerdict& v, const Judged& judged, const Ledger& ledger) {
  Json list = Json::array();
  for (const SeriesReason& r : v.reasons) {
    list.push_back({{"reason", word(r.reason)},
                    {"subject", words_or_null(r.subject)},
                    {"where", ledger.where(r.where)},
                    {"sentence", reason_sentence(r, v, *judged.test, *judged.assessment)}});
  }
  return list;
}

}  // namespace

Json verdict(const SeriesVerdict& v, const Judged& judged, const Ledger& ledger) {
  const Test& test = *judged.test;
  const Assessment& a = *judged.assessment;
  const bool tells_delivery = v.word == Word::not_reached || v.damage_by;
  Json j{{"word", word_text(v.word)}, {"reasons", reasons(v, judged, ledger)}};
  j["damage_by"] = v.damage_by ? Json(word(*v.damage_by)) : Json(nullptr);
  j["damage_sentence"] = v.damage_by ? Json(damage_sentence(*v.damage_by)) : Json(nullptr);
  j["delivered_sentence"] =
      tells_delivery ? Json(delivered_sentence(a.delivery[v.series], v, a)) : Json(nullptr);
  j["look"] = v.look ? Json(*v.look + 1) : Json(nullptr);
  j["look_covers"] = v.look ? covered(v.look_covers, test) : Json::array();
  j["power_stage"] = v.power ? stage(a.power[*v.power].stage, test) : Json(nullptr);
  j["power_covers"] = v.power ? covered(v.power_covers, test) : Json::array();
  j["power_claimed"] = v.power_claimed;
  j["clean_looks"] = v.clean_looks;
  return j;
}

Json evidence(const Judged& judged, std::size_t index, Ledger& ledger) {
  const auto& all = judged.assessment->evidence;
  const auto e =
      std::find_if(all.begin(), all.end(), [&](const HitEvidence& h) { return h.series == index; });
  if (e == all.end()) return nullptr;
  return {{"places", e->places},
          {"with_damage", e->with_damage},
          {"upper", ledger.computed(e->upper, "1", "method-hit-evidence")},
          {"sentence", evidence_sentence(*e)}};
}

}  // namespace hailwright::json
