#include <algorithm>

#include "report/log_answer.hpp"
#include "report/log_use_sentences.hpp"
#include "report/readings_json_parts.hpp"
#include "report/readings_yaml_text.hpp"
#include "report/report_json_parts.hpp"
#include "report/skipped_readings.hpp"

namespace hailwright::json {

namespace {

/// What all of its numbers rest on, once for all of them.
Json rests_on(const ReadingsAnswer& a, Ledger& ledger) {
  Json ids = Json::array(
      {ledger.use("method-instruments-and-scopes"), ledger.use("method-normalised-power")});
  for (const DefaultId id : a.results.assumptions.used())
    ids.push_back(ledger.use(default_source(id)));
  return ids;
}

/// As docs/schemas/readings.schema.json has the same of a log alone.
Json log(const LogUse& use, const ReadingsAnswer& a, Ledger& ledger) {
  Json stretches = Json::array();
  for (std::size_t i = 0; i < a.findings.stretches.size(); ++i)
    stretches.push_back(stretch(a, a.findings.stretches[i], a.results.stretches.at(i)));
  return {{"where", ledger.where(use.origin)},
          {"under", key_of(a.place)},
          {"files", a.files},
          {"format", log_format(a)},
          {"read", log_tally(a.tally)},
          {"usual_step", amount(a.findings.usual_step_s, "s")},
          {"rules", log_rules(a)},
          {"whole", stretch(a, a.findings.whole, a.results.whole)},
          {"stretches", std::move(stretches)},
          {"assumed", log_assumed(a.results.assumptions)},
          {"sources", rests_on(a, ledger)}};
}

Json left_out(const LogUse& use, const Record& record) {
  Json list = Json::array();
  for (const SkippedReadings& s : skipped_of_logs(record)) {
    if (std::find(use.setups.begin(), use.setups.end(), s.setup) == use.setups.end()) continue;
    list.push_back(
        {{"set_up", record.setups[s.setup].name}, {"because", s.reason}, {"readings", s.count}});
  }
  return list;
}

}  // namespace

Json logs(const Judged& judged, Ledger& ledger) {
  const Record& record = judged.test->record;
  const auto answers = log_answers(*judged.test, *judged.assessment);
  Json list = Json::array();
  for (std::size_t i = 0; i < answers.size(); ++i) {
    const LogUse& use = record.logs[i];
    Json j = log(use, answers[i], ledger);
    j["set_ups"] = Json::array();
    for (const std::size_t setup : use.setups)
      j["set_ups"].push_back(record.setups[setup].name);
    j["left_out"] = left_out(use, record);
    j["sentences"] = {setups_sentence(use, record), steady_sentence(use.question),
                      setup_gaps_sentence(use), put_up_sentence()};
    list.push_back(std::move(j));
  }
  return list;
}

Json sessions(const Judged& judged, Ledger& ledger) {
  const auto answers = session_answers(*judged.test, *judged.assessment);
  Json list = Json::array();
  for (std::size_t i = 0; i < answers.size(); ++i) {
    Json j = log(judged.test->record.sessions[i], answers[i], ledger);
    j["sentences"] = Json::array();
    for (const NamedStretch& session : told_stretches(answers[i])) {
      j["sentences"].push_back(session.name + ": " + session_sentence(session, answers[i]));
      for (const std::string& more : normalised_sentences(session, answers[i]))
        j["sentences"].push_back(session.name + ": " + more);
    }
    list.push_back(std::move(j));
  }
  return list;
}

}  // namespace hailwright::json
