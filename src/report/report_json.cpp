#include <fmt/format.h>

#include <algorithm>
#include <string>
#include <vector>

#include "hailwright/core/digest.hpp"
#include "hailwright/report/write_up.hpp"
#include "report/report_json_parts.hpp"
#include "report/sentences.hpp"

namespace hailwright {

namespace {

using json::Json;
using json::Ledger;
using json::list_of;
using json::words_or_null;

Json inputs_json(const WriteUp& write_up) {
  Json list = Json::array();
  for (const InputCopy& copy : write_up.inputs) {
    list.push_back(
        {{"path", copy.path}, {"name", copy.name}, {"sha256", copy.sha256}, {"bytes", copy.bytes}});
  }
  return list;
}

Json write_up_json(const Record& record) {
  const WriteUpNotes& w = record.write_up;
  return {{"author", words_or_null(w.author)},     {"contact", words_or_null(w.contact)},
          {"place", words_or_null(w.place)},       {"asked_by", words_or_null(w.asked_by)},
          {"received", words_or_null(w.received)}, {"issued", words_or_null(w.issued)},
          {"opinions", list_of(w.opinions)}};
}

/// What the record names, and the file in the write-up where it was taken over.
Json photos_json(const WriteUp& write_up, std::size_t index, const Ledger& ledger) {
  Json list = Json::array();
  for (const PhotoName& p : photos_named(*write_up.judged[index].test)) {
    Json shown = nullptr;
    if (index < write_up.photos.size()) {
      const auto found = write_up.photos[index].find(p.file);
      if (found != write_up.photos[index].end()) shown = found->second.file;
    }
    list.push_back({{"file", p.file},
                    {"shows", p.shows},
                    {"description", words_or_null(p.description)},
                    {"where", ledger.where(p.where)},
                    {"shown_as", std::move(shown)}});
  }
  return list;
}

Json series_name(const Judged& judged, const std::optional<std::size_t>& verdict) {
  if (!verdict) return nullptr;
  return judged.test->protocol.series[judged.assessment->verdicts[*verdict].series].name;
}

Json powers_json(const Judged& judged, const std::vector<PowerResult>& powers,
                 const std::vector<LossAnswers>* reader, Ledger& ledger) {
  Json list = Json::array();
  for (std::size_t i = 0; i < powers.size(); ++i)
    list.push_back(
        json::power(powers[i], judged, reader != nullptr ? &reader->at(i) : nullptr, ledger));
  return list;
}

Json siblings_json(const Record& record) {
  Json labels = Json::array();
  for (const Sibling& s : record.siblings)
    labels.push_back(s.label);
  return labels;
}

Json caution_ids(const Assessment& assessment) {
  Json ids = Json::array();
  for (const Caution* c : assessment.cautions)
    ids.push_back(c->id);
  return ids;
}

void add_panels(Json& j, const Record& record, const Ledger& ledger) {
  j["panel"] = json::panel(record.panel, ledger);
  j["serial"] = words_or_null(record.serial);
  j["control"] = record.control ? json::panel(*record.control, ledger) : Json(nullptr);
  j["control_same_model"] = record.control_same_model;
  j["siblings"] = siblings_json(record);
}

void add_power(Json& j, const Judged& judged, Ledger& ledger) {
  const Assessment& a = *judged.assessment;
  const ReaderLimit* reader = judged.reader_limit;
  j["power"] = powers_json(judged, a.power, reader != nullptr ? &reader->power : nullptr, ledger);
  j["later_power"] = powers_json(judged, a.later_power,
                                 reader != nullptr ? &reader->later_power : nullptr, ledger);
}

Json record_json(const WriteUp& write_up, std::size_t index, Ledger& ledger) {
  const Judged& judged = write_up.judged[index];
  const Test& test = *judged.test;
  const Assessment& a = *judged.assessment;
  Json j{{"title", test.record.title}, {"where", ledger.where(test.record.origin)}};
  j["headline"] = headline(test, a);
  j["hardest_withstood"] = series_name(judged, a.hardest_withstood);
  j["mildest_damaged"] = series_name(judged, a.mildest_damaged);
  add_panels(j, test.record, ledger);
  j["write_up"] = write_up_json(test.record);
  j["protocol"] = json::protocol(test, ledger);
  j["circumstances"] = json::circumstances(test, ledger);
  j["balls"] = json::balls(test.record, ledger);
  j["trials"] = json::trials(test.record, ledger);
  j["series"] = Json::array();
  for (std::size_t s = 0; s < a.delivery.size(); ++s)
    j["series"].push_back(json::series(judged, s, ledger));
  add_power(j, judged, ledger);
  j["set_ups"] = json::set_ups(test, ledger);
  j["readings"] = json::readings(test, ledger);
  j["logs"] = json::logs(judged, ledger);
  j["sessions"] = json::sessions(judged, ledger);
  j["meter_sessions"] = json::meter_sessions(judged, ledger);
  j["shading"] = json::shading(judged, ledger);
  j["loss_pattern"] = json::loss_pattern(judged, ledger);
  j["stresses"] = json::stresses(judged, ledger);
  j["damage_bracket"] = json::damage_bracket(judged, ledger);
  j["looks"] = json::looks(judged, ledger);
  j["photos"] = photos_json(write_up, index, ledger);
  j["assumed"] = json::assumed(a, ledger);
  j["price_per_watt"] = json::price_per_watt(test, ledger);
  j["cautions"] = caution_ids(a);
  return j;
}

/// Each once, in the order of urgency of the records.
Json cautions_json(const WriteUp& write_up) {
  std::vector<const Caution*> all;
  for (const Judged& judged : write_up.judged) {
    for (const Caution* c : judged.assessment->cautions) {
      if (std::find(all.begin(), all.end(), c) == all.end()) all.push_back(c);
    }
  }
  Json list = Json::array();
  for (const Caution* c : all) {
    list.push_back({{"id", c->id},
                    {"group", text(c->group)},
                    {"hazard", c->hazard},
                    {"text", c->text},
                    {"trigger", c->trigger},
                    {"source", c->source},
                    {"read_at", words_or_null(std::string(c->read_at))},
                    {"status", text(c->status)},
                    {"status_note", words_or_null(std::string(c->status_note))}});
  }
  return list;
}

/// All but what marks it among others.
Json without_id(const WriteUp& write_up) {
  Ledger ledger(write_up);
  Json records = Json::array();
  for (std::size_t i = 0; i < write_up.judged.size(); ++i)
    records.push_back(record_json(write_up, i, ledger));
  Json j{{"schema", "hailwright report " + std::to_string(report_schema_version)}};
  j["schema_version"] = report_schema_version;
  j["tool"] = {{"name", "hailwright"}, {"version", write_up.version}};
  j["report_id"] = nullptr;
  j["inputs"] = inputs_json(write_up);
  j["records"] = std::move(records);
  j["cautions"] = cautions_json(write_up);
  j["sources"] = ledger.sources();
  j["closing"] = closing_sentence(write_up.judged);
  return j;
}

std::string id_of(const Json& without_id, const WriteUp& write_up) {
  std::string all = json::dump(without_id);
  for (const auto& of_record : write_up.photos) {
    for (const auto& [name, photo] : of_record)
      all += photo.file + ' ' + sha256_hex(photo.bytes) + '\n';
  }
  const std::string hex = sha256_hex(all);
  return fmt::format("{}-{}-{}", hex.substr(0, 4), hex.substr(4, 4), hex.substr(8, 4));
}

Json with_id(const WriteUp& write_up) {
  Json j = without_id(write_up);
  j["report_id"] = id_of(j, write_up);
  return j;
}

}  // namespace

std::string report_json_line(const WriteUp& write_up) {
  return json::dump_line(with_id(write_up));
}

std::string report_id(const WriteUp& write_up) {
  return id_of(without_id(write_up), write_up);
}

std::string report_json(const WriteUp& write_up) {
  return json::dump(with_id(write_up));
}

}  // namespace hailwright
