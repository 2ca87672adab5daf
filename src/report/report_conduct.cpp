// What was left out, what the author thinks, how people were kept whole and where the panel goes.
#include <fmt/format.h>

#include "hailwright/model/safety_questions.hpp"
#include "report/judgement_done.hpp"
#include "report/report_sections.hpp"
#include "report/words.hpp"

namespace hailwright {

namespace {

using Lines = std::vector<std::string>;

/// "throws 2, 7 and 9".
Lines throws_that(const Record& record, Landing landing) {
  Lines numbers;
  for (const Shot& shot : record.shots) {
    if (shot.landing == landing) numbers.push_back(std::to_string(shot.number));
  }
  if (numbers.empty()) return {"none"};
  return {(numbers.size() > 1 ? "throws " : "throw ") + enumerate(numbers)};
}

}  // namespace

void append_left_out(Document& out, const ReportPart& part) {
  part.section(out, "What was assumed", "assumed");
  if (part.assessment.assumed.empty()) {
    out.blocks.push_back(Paragraph{plain("Nothing: the files state every value that was used.")});
  } else {
    append_assumed(out, part.assessment, Audience::reader);
  }
  part.section(out, "Left out", "left-out");
  Facts facts;
  if (!part.protocol.series.empty()) {
    add_fact(facts, "missed the panel", throws_that(part.record, Landing::miss));
    add_fact(facts, "broke before the panel", throws_that(part.record, Landing::broke));
  }
  const Lines skipped = skipped_lines(part.test, part.sources);
  add_fact(facts, "readings not counted", skipped.empty() ? Lines{"none"} : skipped);
  out.blocks.push_back(std::move(facts));
}

void append_opinions(Document& out, const ReportPart& part) {
  const Lines& opinions = part.record.write_up.opinions;
  if (opinions.empty()) return;
  part.section(out, "Opinions of the author", "opinions");
  out.blocks.push_back(Paragraph{plain("What follows is opinion. No result above rests on it.")});
  Bullets list;
  for (const std::string& opinion : opinions)
    list.items.push_back(plain(opinion));
  out.blocks.push_back(std::move(list));
}

namespace {

/// What each block of the safety questions is about.
std::string block_label(std::string_view block) {
  if (block == "agreed") return "answered";
  return std::string(block);
}

Lines answers_of(const SafetyAnswers& safety, std::string_view block) {
  Lines lines;
  const auto answers = safety.blocks.find(std::string(block));
  if (answers == safety.blocks.end()) return lines;
  for (const SafetyQuestion& question : safety_questions()) {
    if (question.block != block) continue;
    const auto answer = answers->second.find(std::string(question.key));
    if (answer == answers->second.end()) continue;
    lines.push_back(fmt::format("{}: {}", question.asks, answer->second.text));
  }
  return lines;
}

Lines stress_answers(const StressPlan& stress) {
  Lines lines;
  for (const StressQuestion& question : stress.kind->questions) {
    const auto answer = stress.safety.find(std::string(question.asked.key));
    if (answer != stress.safety.end())
      lines.push_back(fmt::format("{}: {}", question.asked.asks, answer->second.text));
  }
  return lines;
}

/// When the safety questions were answered: the day is the protocol's own word.
std::string answered_when(const ReportPart& part) {
  const auto& blocks = part.protocol.safety.blocks;
  if (blocks.empty()) return "The protocol answers no question on safety.";
  const auto agreed = blocks.find("agreed");
  if (agreed == blocks.end() || !agreed->second.contains("on"))
    return "As the protocol answers, on a day that is not stated.";
  const std::string& day = agreed->second.at("on").text;
  const char* order = day < part.record.date    ? "before the day of the test"
                      : day == part.record.date ? "the day of the test"
                                                : "after the test";
  return fmt::format("As the protocol answers on {}, {}.", day, order);
}

Lines incident_lines(const Record& record) {
  if (!record.incidents) return {"not stated"};
  return record.incidents->empty() ? Lines{"none"} : *record.incidents;
}

}  // namespace

void append_safety(Document& out, const ReportPart& part) {
  part.section(out, "Safety measures and incidents", "safety");
  Facts facts;
  for (const std::string_view block : safety_blocks())
    add_fact(facts, block_label(block), answers_of(part.protocol.safety, block));
  for (const StressPlan& stress : part.protocol.stresses)
    add_fact(facts, stress.name, stress_answers(stress));
  if (facts.items.empty()) add_fact(facts, "measures", {"not stated"});
  add_fact(facts, "incidents", incident_lines(part.record));
  out.blocks.push_back(Paragraph{plain(answered_when(part) +
                                       " It is no advice to anybody: whoever tests must answer for "
                                       "their own ground and launcher.")});
  out.blocks.push_back(std::move(facts));
}

void append_whereabouts(Document& out, const ReportPart& part) {
  part.section(out, "Who paid, and where the panel goes", "whereabouts");
  const Disclosure said = part.record.disclosure.value_or(Disclosure{});
  Facts facts;
  add_fact(facts, "bought by", {bought_by_text(part.record)});
  add_fact(facts, "asked for by", {or_unstated(part.record.write_up.asked_by)});
  add_fact(facts, "interests of the reviewer", {or_unstated(said.interests)});
  add_fact(facts, "the panel goes", {or_unstated(said.panel_goes)});
  out.blocks.push_back(std::move(facts));
}

}  // namespace hailwright
