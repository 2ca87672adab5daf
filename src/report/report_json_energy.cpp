#include "report/judgement_energy.hpp"
#include "report/readings_json_parts.hpp"
#include "report/report_json_parts.hpp"

namespace hailwright::json {

namespace {

/// {start, end}; null where neither is there.
template <class Q>
Json ends(const std::optional<Q>& start, const std::optional<Q>& end, const SourceSpan& span,
          const Ledger& ledger) {
  if (!start && !end) return nullptr;
  return {{"start", ledger.stated(start, span)}, {"end", ledger.stated(end, span)}};
}

Json beside(const MeterSession& s, const MeterSessionResult& r, const Ledger& ledger) {
  if (!s.beside) return nullptr;
  const EnergyBeside& b = *s.beside;
  return {{"label", b.label},
          {"where", ledger.where(b.origin)},
          {"energy", log_number(r.energy_beside, "J")},
          {"back", ends(b.back_start, b.back_end, b.origin, ledger)},
          {"ratio", log_number(r.ratio, "1")}};
}

Json rests_on(const MeterSessionResult& r, Ledger& ledger) {
  Json ids = Json::array(
      {ledger.use("method-sessions-by-meter"), ledger.use("method-instruments-and-scopes")});
  if (r.normalised) ids.push_back(ledger.use("method-normalised-power"));
  for (const DefaultId id : r.assumptions.used())
    ids.push_back(ledger.use(default_source(id)));
  return ids;
}

}  // namespace

Json meter_sessions(const Judged& judged, Ledger& ledger) {
  Json list = Json::array();
  for (const MeterSessionResult& r : judged.assessment->energy) {
    const MeterSession& s = judged.test->record.energy.at(r.session);
    list.push_back({{"name", s.name},
                    {"where", ledger.where(s.origin)},
                    {"stage", s.after ? "after" : "before"},
                    {"date", words_or_null(s.date)},
                    {"lasting", ledger.stated(s.lasting, s.origin)},
                    {"energy", log_number(std::optional(r.energy), "J")},
                    {"mean_power", log_number(std::optional(r.mean_power), "W")},
                    {"sun", ends(s.sun_start, s.sun_end, s.origin, ledger)},
                    {"back", ends(s.back_start, s.back_end, s.origin, ledger)},
                    {"normalised", log_number(r.normalised, "W")},
                    {"beside", beside(s, r, ledger)},
                    {"sentences",
                     list_of(meter_session_sentences(s, r, !judged.test->protocol.series.empty()))},
                    {"assumed", log_assumed(r.assumptions)},
                    {"sources", rests_on(r, ledger)}});
  }
  return list;
}

}  // namespace hailwright::json
