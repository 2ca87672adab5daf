#include "report/log_answer.hpp"

#include "report/log_picture_data.hpp"
#include "report/readings_sentences.hpp"

namespace hailwright {

namespace {

LogPlace place_of(const LogUse& use, const Record& record) {
  if (use.setups.empty()) return LogPlace::sessions;
  const StageKind kind = record.setups[use.setups.front()].stage.kind;
  const bool before = kind == StageKind::before || kind == StageKind::baseline;
  return before ? LogPlace::before : LogPlace::after;
}

std::vector<ReadingsAnswer> answers_of(const std::vector<LogUse>& logs,
                                       const std::vector<LogResults>& results,
                                       const Record& record) {
  std::vector<ReadingsAnswer> answers;
  for (std::size_t i = 0; i < logs.size(); ++i) {
    const LogUse& use = logs[i];
    ReadingsAnswer a;
    a.files = use.files;
    a.stated = use.stated;
    a.shape = use.shape;
    a.question = use.question;
    a.tally = use.tally;
    a.findings = use.findings;
    a.results = results.at(i);
    a.place = place_of(use, record);
    answers.push_back(std::move(a));
  }
  return answers;
}

}  // namespace

std::vector<ReadingsAnswer> log_answers(const Test& test, const Assessment& assessment) {
  return answers_of(test.record.logs, assessment.logs, test.record);
}

std::vector<ReadingsAnswer> session_answers(const Test& test, const Assessment& assessment) {
  return answers_of(test.record.sessions, assessment.sessions, test.record);
}

std::vector<NamedStretch> told_stretches(const ReadingsAnswer& a) {
  if (a.question.cut.kind == LogCut::Kind::whole)
    return {{files_text(a.files), a.findings.whole, a.results.whole}};
  std::vector<NamedStretch> told;
  for (std::size_t i = 0; i < a.findings.stretches.size(); ++i) {
    told.push_back(
        {detail::stretch_name(a.findings, i), a.findings.stretches[i], a.results.stretches.at(i)});
  }
  return told;
}

}  // namespace hailwright
