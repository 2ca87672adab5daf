#include <cmath>
#include <limits>

#include "hailwright/report/compose_readings.hpp"
#include "logs/log_layout.hpp"
#include "report/json_values.hpp"
#include "report/log_picture_data.hpp"
#include "report/readings_json_parts.hpp"
#include "report/readings_sentences.hpp"

namespace hailwright {

namespace {

using json::Json;

std::string_view word_of(LogCut::Kind kind) {
  switch (kind) {
  case LogCut::Kind::whole:
    return "whole";
  case LogCut::Kind::times:
    return "times";
  case LogCut::Kind::markers:
    return "markers";
  case LogCut::Kind::plateaus:
    break;
  }
  return "plateaus";
}

std::string_view word_of(StampForm::Kind kind) {
  switch (kind) {
  case StampForm::Kind::calendar:
    return "calendar";
  case StampForm::Kind::unix_seconds:
    return "unix seconds";
  case StampForm::Kind::unix_milliseconds:
    break;
  }
  return "unix milliseconds";
}

std::string_view word_of(Severity severity) {
  switch (severity) {
  case Severity::note:
    return "note";
  case Severity::warning:
    return "warning";
  case Severity::error:
    break;
  }
  return "error";
}

Json steady_json(const std::optional<SteadyRule>& rule) {
  if (!rule) return nullptr;
  return {{"window", json::amount(rule->window.si(), "s")},
          {"irradiance_change", json::amount(rule->irradiance_change.si(), "1")},
          {"ramp", json::amount(rule->ramp.si(), "1")},
          {"temperature_change", json::amount(rule->temperature_change.si(), "K")},
          {"sentence", steady_rule_text(*rule)}};
}

Json normalising_json(const std::optional<LogNormalisation>& n) {
  if (!n) return nullptr;
  return {{"coefficient", json::amount(n->gamma.si(), "1/K")},
          {"cell_above_back", json::amount(n->cell_above_back.si(), "K")},
          {"least_irradiance", json::amount(n->least_irradiance.si(), "W/m2")}};
}

Json clock_json(const ReadingsAnswer& a) {
  if (!a.offset) return nullptr;
  const ClockOffset& o = *a.offset;
  Json j;
  j["offset"] = o.offset ? json::amount(o.offset->si(), "s") : Json(nullptr);
  if (o.offset) j["offset"]["standard_uncertainty"] = json::finite(o.standard_u.si());
  j["correlation"] = json::number_or_null(o.correlation);
  j["next_best"] = json::number_or_null(o.next_best);
  j["searched"] = json::amount(o.searched.si(), "s");
  j["why_not"] = json::words_or_none(o.why_not);
  j["sentence"] = clock_sentence(o, a.offset_used);
  return j;
}

Json notes_json(const ReadingsAnswer& a) {
  Json list = Json::array();
  for (const Diagnostic& d : a.notes.items()) {
    const auto file = file_of(a, d.where);
    list.push_back({{"severity", word_of(d.severity)},
                    {"code", d.code},
                    {"file", json::or_null(file)},
                    {"line", file && d.where.line > 0 ? Json(d.where.line) : Json(nullptr)},
                    {"message", d.message},
                    {"hints", d.hints}});
  }
  return list;
}

}  // namespace

namespace json {

Json log_format(const ReadingsAnswer& a) {
  const LogShape& s = a.shape;
  Json columns = Json::array();
  for (const LogColumn& c : s.used) {
    columns.push_back({{"role", hailwright::word_of(c.role)},
                       {"header", c.header},
                       {"unit", json::words_or_none(c.unit.symbol)}});
  }
  return {{"separator", std::string(1, s.separator)},
          {"decimal", std::string(1, s.decimal)},
          {"header_line", s.header_line},
          {"headers", s.headers},
          {"columns", std::move(columns)},
          {"stamps", word_of(s.stamp.kind)},
          {"dates", detail::date_order_word(s.stamp.dates)},
          {"own_offset", s.stamp.own_offset},
          {"zone", json::words_or_none(a.stated.zone)}};
}

Json log_tally(const LogTally& t) {
  Json codes = Json::array();
  for (const auto& [code, count] : t.by_code)
    codes.push_back({{"code", code}, {"count", count}});
  return {{"bytes", t.bytes},
          {"lines", t.lines},
          {"rows", t.rows},
          {"unreadable", t.unreadable},
          {"out_of_order", t.out_of_order},
          {"same_time", t.same_time},
          {"comments", t.comments},
          {"repeated_headers", t.repeated_headers},
          {"problems", std::move(codes)},
          {"sentence", read_sentence(t)},
          {"unused_sentence", unused_sentence(t)}};
}

Json log_rules(const ReadingsAnswer& a) {
  const StretchRules& r = a.question.rules;
  Json j{{"longest_gap", json::amount(r.longest_gap.si(), "s")},
         {"load_on", json::amount(r.load_on.si(), "W")}};
  j["counter_wraps_at"] =
      r.counter_wraps_at ? json::amount(r.counter_wraps_at->si(), "J") : Json(nullptr);
  j["steady"] = steady_json(r.steady);
  j["normalising"] = normalising_json(r.normalise);
  const LogCut& cut = a.question.cut;
  const bool plateaus = cut.kind == LogCut::Kind::plateaus;
  j["cut"] = {
      {"by", word_of(cut.kind)},
      {"shortest", plateaus ? json::amount(cut.plateaus.shortest.si(), "s") : Json(nullptr)},
      {"shortest_off",
       plateaus ? json::amount(cut.plateaus.shortest_off.si(), "s") : Json(nullptr)},
      {"sentence", cut_sentence(cut, a.findings.stretches.size())}};
  return j;
}

Json log_assumed(const Assumptions& assumptions) {
  Json list = Json::array();
  for (const DefaultId id : assumptions.used()) {
    const DefaultRow& row = default_row(id);
    list.push_back({{"what", row.what},
                    {"taken", row.taken},
                    {"replace", row.replace},
                    {"why", row.why},
                    {"status", text(row.status)}});
  }
  return list;
}

}  // namespace json

std::string readings_json(const ReadingsAnswer& a) {
  Json j{{"schema", "hailwright readings 1"}, {"schema_version", 1}};
  j["headline"] = log_headline(a);
  j["files"] = a.files;
  j["files_beside"] = a.files_beside;
  j["format"] = json::log_format(a);
  j["read"] = json::log_tally(a.tally);
  j["read_beside"] = a.tally_beside ? json::log_tally(*a.tally_beside) : Json(nullptr);
  j["usual_step"] = json::amount(a.findings.usual_step_s, "s");
  j["rules"] = json::log_rules(a);
  j["whole"] = json::stretch(a, a.findings.whole, a.results.whole);
  j["stretches"] = Json::array();
  for (std::size_t i = 0; i < a.findings.stretches.size(); ++i)
    j["stretches"].push_back(json::stretch(a, a.findings.stretches[i], a.results.stretches.at(i)));
  j["clock"] = clock_json(a);
  j["clock_offset_used"] = json::amount(a.offset_used.si(), "s");
  j["assumed"] = json::log_assumed(a.results.assumptions);
  j["notes"] = notes_json(a);
  j["cautions"] = json::caution_list(log_cautions(a.findings));
  return json::dump(j);
}

}  // namespace hailwright
