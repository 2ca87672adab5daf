// Step 10 of an explanation: the word of each series.
#include "report/explanation.hpp"

#include <fmt/format.h>

#include "hailwright/core/quantity_text.hpp"
#include "report/sentences.hpp"
#include "report/stress_sentences.hpp"
#include "report/words.hpp"

namespace hailwright {

namespace {

/// Which line of MEASUREMENT M11 gives a word.
int line_of(Word word) {
  switch (word) {
  case Word::damaged:
    return 1;
  case Word::not_reached:
    return 2;
  case Word::undecided:
    return 3;
  case Word::withstood:
    break;
  }
  return 4;
}

std::string word_line(const SeriesVerdict& v, const Assessment& a, const Test& test) {
  const int line = line_of(v.word);
  std::vector<std::string> skipped;
  for (int i = 1; i < line; ++i)
    skipped.push_back(std::to_string(i));
  const std::string not_those =
      skipped.empty()
          ? ""
          : fmt::format("not line{} {}, but ", skipped.size() > 1 ? "s" : "", enumerate(skipped));
  const std::string why =
      v.word == Word::withstood ? "" : " (" + reason_sentence(v.reasons.front(), v, test, a) + ")";
  return fmt::format("{}: {}line {}{}: {}", test.protocol.series[v.series].name, not_those, line,
                     why, word_text(v.word));
}

/// Where looks or readings come after several series, they answer for all of them.
std::string joint_line(const SeriesVerdict& v, const Test& test) {
  if (!v.look_covers.joint() && !v.power_covers.joint()) return "";
  const bool by_look = v.look_covers.joint();
  const bool by_power = v.power_covers.joint() && v.power;
  if (!by_look && !by_power) return "";
  return fmt::format("{}: the {} for {}", test.protocol.series[v.series].name,
                     by_look && by_power ? "look and the readings answer"
                     : by_look           ? "look answers"
                                         : "readings answer",
                     coverage_text(by_power ? v.power_covers : v.look_covers, test));
}

/// The bound of MEASUREMENT M12; without damage a pocket calculator gives it.
std::string evidence_line(const HitEvidence& e, const Test& test) {
  return fmt::format("{}: {} of {} with visible damage; chance per hit below {}{} (95 %)",
                     test.protocol.series[e.series].name, e.with_damage, counted(e.places, "place"),
                     e.with_damage == 0 ? fmt::format("1 - 0.05^(1/{}) = ", e.places) : "",
                     fixed(e.upper, 4));
}

std::string stress_word_line(const StressVerdict& v, const Assessment& a, const Test& test) {
  const std::string why = v.word == Word::withstood || v.reasons.empty()
                              ? ""
                              : " (" + stress_reason_sentence(v.reasons.front(), v, test, a) + ")";
  return fmt::format("{}: line {}{}: {}", plan_of(v, test).name, line_of(v.word), why,
                     word_text(v.word));
}

/// How sure it is that a quantity was as strong as it has to be.
std::string stress_line(const StressVerdict& v, const StressQuantity& q, const Test& test) {
  std::string line = fmt::format("{}, {}", plan_of(v, test).name, stress_quantity_sentence(q));
  if (q.reached.yes_no) return line;
  return fmt::format("{}; P(not weaker) = {}", line, probability_text(q.chance_not_weaker));
}

}  // namespace

Step explain_stresses(const Assessment& a, const Test& test) {
  Step step;
  step.title = "9. What was done";
  step.what = {
      "Each quantity of what was done is held against the planned value less its tolerance "
      "on the weak side. It counts when it is shown, at 95 %, to be not weaker. What can "
      "only be as planned or not counts when it is said to be."};
  step.formula = {
      "not weaker, of what is weak when low: P(value >= planned x (1 - tolerance)) >= "
      "0.95; of what is weak when large: P(value <= planned x (1 + tolerance)) >= 0.95"};
  for (const StressVerdict& v : a.stresses) {
    if (v.quantities.empty())
      step.here.push_back(plan_of(v, test).name + ": what was done cannot be told");
    for (const StressQuantity& q : v.quantities)
      step.here.push_back(stress_line(v, q, test));
  }
  step.source = "rule M10; JCGM 106:2012, clause 8 (guarded acceptance)";
  step.pages = "docs/judging.md";
  return step;
}

Step explain_word(const Assessment& a, const Test& test) {
  Step step;
  step.title = "10. The word";
  step.what = {test.protocol.series.empty()
                   ? "For each stress the first of four lines that applies gives the word."
                   : "For each series, the weakest first, the first of four lines that applies "
                     "gives the word."};
  const bool hail = !test.protocol.series.empty();
  step.formula = {"line 1: a new major defect, absent before and seen after, or the loss beyond "
                  "the limit: damaged",
                  hail ? "line 2: a named place not struck at least at the grade: not reached"
                       : "line 2: a quantity not shown to be as strong as planned: not reached",
                  "line 3: no look before or none after, or the claimed power without an answer "
                  "that counts: undecided",
                  "line 4: otherwise withstood"};
  for (const SeriesVerdict& v : a.verdicts) {
    step.here.push_back(word_line(v, a, test));
    if (std::string joint = joint_line(v, test); !joint.empty()) {
      step.here.push_back(std::move(joint));
    }
  }
  for (const StressVerdict& v : a.stresses)
    step.here.push_back(stress_word_line(v, a, test));
  for (const HitEvidence& e : a.evidence)
    step.here.push_back(evidence_line(e, test));
  step.source = hail ? "rules M10 to M12; Clopper and Pearson (exact bound)" : "rules M10 and M11";
  if (!hail) {
    step.pages = "docs/judging.md";
    return step;
  }
  step.pages = "docs/judging.md, " + method_pages({"hit-evidence"});
  return step;
}

}  // namespace hailwright
