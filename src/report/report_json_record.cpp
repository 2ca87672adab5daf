#include "report/report_json_parts.hpp"

#include <fmt/format.h>

#include <algorithm>

#include "hailwright/evaluate/price.hpp"
#include "report/report_json_words.hpp"

namespace hailwright::json {

namespace {

Json conditions(const Record& r, const Ledger& ledger) {
  const Conditions& c = r.conditions;
  return {{"clean_and_dry", or_null(c.clean_and_dry)},
          {"same_leads", or_null(c.same_leads)},
          {"same_tools", or_null(c.same_tools)},
          {"pre_exposed", or_null(c.pre_exposed)},
          {"in_sun_first", ledger.stated(c.in_sun_first, c.origin)},
          {"incidence", ledger.stated(c.incidence, c.origin)},
          {"incidence_change", ledger.stated(c.incidence_change, c.origin)},
          {"since_last_shot", ledger.stated(c.since_last_shot, c.origin)}};
}

Json disclosure(const Record& r) {
  if (!r.disclosure) return nullptr;
  return {{"bought_by", words_or_null(r.disclosure->bought_by)},
          {"interests", words_or_null(r.disclosure->interests)},
          {"panel_goes", words_or_null(r.disclosure->panel_goes)}};
}

// Looks.

Json source_of(const FindingKind& kind, Ledger& ledger) {
  switch (kind.status) {
  case ReadStatus::read:
    return ledger.use("iec61215-mqt01");
  case ReadStatus::from_memory:
    return ledger.use("iec61215-mqt01-later");
  default:
    return ledger.use("minor-findings");
  }
}

Json finding(const Finding& f, const Judged& judged, Ledger& ledger) {
  const auto& fresh = judged.assessment->new_findings;
  const auto found = std::find_if(fresh.begin(), fresh.end(),
                                  [&](const NewFinding& n) { return n.finding == &f; });
  const bool is_new = found != fresh.end();
  return {{"kind", f.kind->word},
          {"at", f.where},
          {"where", ledger.where(f.origin)},
          {"share_of_cell", ledger.stated(f.share, f.origin)},
          {"gravity", word(f.kind->gravity)},
          {"source", source_of(*f.kind, ledger)},
          {"new", is_new},
          {"major", is_new && found->major},
          {"cannot_be_told", is_new && found->undecided},
          {"photo", words_or_null(f.photo)}};
}

/// The series that a look comes after.
Json of_series(const Look& l, const Test& test) {
  if (l.start || l.after_stress || test.protocol.series.empty()) return nullptr;
  return test.protocol.series[l.after].name;
}

Json look(const Look& l, const Judged& judged, Ledger& ledger) {
  Json found = Json::array();
  for (const Finding& f : l.saw)
    found.push_back(finding(f, judged, ledger));
  const Test& test = *judged.test;
  return {{"before_the_shots", l.start},
          {"after_series", of_series(l, test)},
          {"after_stress",
           l.after_stress ? Json(test.protocol.stresses[*l.after_stress].name) : Json(nullptr)},
          {"after_throw", or_null(l.after_throw)},
          {"date", l.date.empty() ? test.record.date : l.date},
          {"where", ledger.where(l.origin)},
          {"saw", std::move(found)},
          {"photos", list_of(l.photos)}};
}

}  // namespace

Json clock(const std::optional<int>& minute) {
  if (!minute) return nullptr;
  return fmt::format("{:02}:{:02}", *minute / 60, *minute % 60);
}

Json list_of(const std::vector<std::string>& words) {
  Json list = Json::array();
  for (const std::string& w : words)
    list.push_back(w);
  return list;
}

Json circumstances(const Test& test, const Ledger& ledger) {
  const Record& r = test.record;
  return {{"date", words_or_null(r.date)},
          {"weather", words_or_null(r.weather)},
          {"mounting", words_or_null(r.mounting)},
          {"air", ledger.stated(r.air, r.origin)},
          {"air_density", ledger.stated(r.air_density, r.origin)},
          {"panel_at_shots", ledger.stated(r.panel_at_shots, r.origin)},
          {"conditions", conditions(r, ledger)},
          {"tools_after", r.tools_after ? tools(*r.tools_after, ledger) : Json(nullptr)},
          {"results_seen", or_null(r.results_seen)},
          {"unlike_protocol", list_of(r.unlike_protocol)},
          {"incidents", r.incidents ? list_of(*r.incidents) : Json(nullptr)},
          {"disclosure", disclosure(r)}};
}

Json set_ups(const Test& test, const Ledger& ledger) {
  Json list = Json::array();
  for (const Setup& s : test.record.setups) {
    list.push_back({{"name", s.name},
                    {"stage", stage(s.stage, test)},
                    {"number", s.number},
                    {"date", words_or_null(s.date)},
                    {"redone", redone(s.redone)},
                    {"battery", ledger.stated(s.battery, s.origin)},
                    {"where", ledger.where(s.origin)}});
  }
  return list;
}

Json readings(const Test& test, const Ledger& ledger) {
  const Record& record = test.record;
  const auto measured = [&](const Reading& r, auto q) {
    return r.measured ? ledger.stated(q, r.origin) : Json(nullptr);
  };
  Json list = Json::array();
  int number = 0;
  for (const Reading& r : record.readings) {
    const bool sibling = r.role == Role::sibling;
    list.push_back({{"number", ++number},
                    {"set_up", record.setups[r.setup].name},
                    {"panel", word(r.role)},
                    {"unit", sibling ? Json(record.siblings[r.unit].label) : Json(nullptr)},
                    {"clock", clock(r.minute)},
                    {"round", or_null(r.round)},
                    {"power", measured(r, r.power)},
                    {"irradiance", measured(r, r.irradiance)},
                    {"temperature", measured(r, r.temperature)},
                    {"left_out_because", words_or_null(r.skip)}});
  }
  return list;
}

Json looks(const Judged& judged, Ledger& ledger) {
  Json list = Json::array();
  for (const Look& l : judged.test->record.looks)
    list.push_back(look(l, judged, ledger));
  return list;
}

Json assumed(const Assessment& assessment, Ledger& ledger) {
  Json list = Json::array();
  for (const AssumedEffect& e : assessment.assumed) {
    const DefaultRow& row = default_row(e.id);
    const std::string source = ledger.use(default_source(e.id));
    list.push_back(
        {{"id", word(e.id)},
         {"what", row.what},
         {"taken", row.taken},
         {"write_instead", row.replace},
         {"why", row.why},
         {"status", text(row.status)},
         {"source", source},
         {"adds_to_loss", e.on_loss ? ledger.computed(e.on_loss->points(), "percentage point",
                                                      "method-instruments-and-scopes")
                                    : Json(nullptr)},
         {"adds_to_energy", ledger.computed(e.on_energy, {"method-shot-strength"})}});
  }
  return list;
}

Json price_per_watt(const Test& test, Ledger& ledger) {
  const auto p = hailwright::price_per_watt(test);
  if (!p) return nullptr;
  Json value = ledger.computed(p->value, p->price.currency + "/W", "method-normalised-power");
  value["standard_uncertainty"] = finite(p->value * p->relative_u.si());
  return {
      {"price", ledger.stated(p->price.amount, p->price.currency, test.record.panel.origin)},
      {"power", ledger.computed(p->power, {"method-normalised-power"})},
      {"relative_uncertainty", ledger.computed(p->relative_u, {"method-instruments-and-scopes"})},
      {"price_per_watt", std::move(value)}};
}

}  // namespace hailwright::json
