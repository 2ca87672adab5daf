// What the loggers' files came to: pictures, set-ups and sessions.
#include <fmt/format.h>

#include "report/judgement_logs.hpp"
#include "report/log_answer.hpp"
#include "report/readings_sentences.hpp"
#include "report/report_sections.hpp"

namespace hailwright {

namespace {

/// One picture a log, in the order of the record: "log-1", "session-log-1".
void append_pictures(Document& out, const ReportPart& part, const char* kind,
                     const std::vector<ReadingsAnswer>& answers) {
  for (std::size_t i = 0; i < answers.size(); ++i) {
    const ReadingsAnswer& a = answers[i];
    Figure figure = log_picture(fmt::format("{}-{}{}", kind, i + 1, part.suffix),
                                "Course of " + files_text(a.files), a.findings, a.stated.zone);
    if (!figure.svg.empty()) out.blocks.push_back(std::move(figure));
  }
}

}  // namespace

void append_logs(Document& out, const ReportPart& part) {
  Facts facts = log_facts(part.test, part.assessment, Audience::reader);
  if (facts.items.empty()) return;
  part.section(out, "From the loggers", "loggers");
  out.blocks.push_back(std::move(facts));
  append_pictures(out, part, "log", log_answers(part.test, part.assessment));
  part.append_table(out, "logs");
  append_pictures(out, part, "session-log", session_answers(part.test, part.assessment));
  part.append_table(out, "sessions");
}

}  // namespace hailwright
