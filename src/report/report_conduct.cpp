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
  part.section(out, "Assumed for you", "assumed");
  if (part.assessment.assumed.empty()) {
    out.blocks.push_back(Paragraph{plain("Nothing: the files state every value that was used.")});
  } else {
    append_assumed(out, part.assessment);
  }
  part.section(out, "Left out", "left-out");
  Facts facts;
  add_fact(facts, "missed the panel", throws_that(part.record, Landing::miss));
  add_fact(facts, "broke before the panel", throws_that(part.record, Landing::broke));
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

}  // namespace

void append_safety(Document& out, const ReportPart& part) {
  part.section(out, "Safety measures and incidents", "safety");
  Facts facts;
  for (const std::string_view block : safety_blocks())
    add_fact(facts, block_label(block), answers_of(part.protocol.safety, block));
  if (facts.items.empty()) add_fact(facts, "measures", {"not stated"});
  add_fact(facts, "incidents",
           part.record.incidents.empty() ? Lines{"none stated"} : part.record.incidents);
  out.blocks.push_back(Paragraph{plain(
      "As the protocol answered before the test. It is no advice to anybody: whoever tests must "
      "answer for their own ground and launcher.")});
  out.blocks.push_back(std::move(facts));
}

void append_whereabouts(Document& out, const ReportPart& part) {
  part.section(out, "Who paid, and where the panel goes", "whereabouts");
  const Disclosure said = part.record.disclosure.value_or(Disclosure{});
  Facts facts;
  add_fact(facts, "bought by", {or_unstated(said.bought_by)});
  add_fact(facts, "asked for by", {or_unstated(part.record.write_up.asked_by)});
  add_fact(facts, "interests of the reviewer", {or_unstated(said.interests)});
  add_fact(facts, "the panel goes", {or_unstated(said.panel_goes)});
  out.blocks.push_back(std::move(facts));
}

}  // namespace hailwright
