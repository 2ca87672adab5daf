#include "report/judgement_stress.hpp"

#include <fmt/format.h>

#include "report/sentences.hpp"
#include "report/stress_sentences.hpp"

namespace hailwright {

namespace {

Fact verdict_fact(const StressVerdict& v, const Test& test, const Assessment& a,
                  const SourceSet& sources) {
  const StressPlan& plan = plan_of(v, test);
  Fact fact{plan.name, {}};
  fact.lines.push_back({{std::string(word_text(v.word)), word_tone(v.word)},
                        {fmt::format(" ({})", stress_text(plan))}});
  for (const StressReason& r : v.reasons) {
    fact.lines.push_back(
        plain(stress_reason_sentence(r, v, test, a) + place_text(sources, r.where)));
  }
  if (v.damage_by) fact.lines.push_back(plain(stress_damage_sentence(v)));
  return fact;
}

Fact done_fact(const StressVerdict& v, const Test& test, const Assessment& a) {
  const StressDone& done = test.record.stresses[v.done];
  const StressPlan& plan = plan_of(v, test);
  Fact fact{plan.name, {}};
  const auto add = [&](std::string line) { fact.lines.push_back(plain(std::move(line))); };
  add(fmt::format("done {}: {}", stress_day_text(done, test.record),
                  fmt::join(stress_value_lines(plan.kind->done, done.values), ", ")));
  for (const StressQuantity& q : v.quantities)
    add(stress_quantity_sentence(q));
  if (v.power) add(stress_stages_sentence(v, test, a));
  if (!done.note.empty()) add("note: " + done.note);
  add(not_equivalent_sentence(*plan.kind));
  return fact;
}

}  // namespace

void append_stress_verdicts(Facts& facts, const Test& test, const Assessment& a,
                            const SourceSet& sources) {
  for (const StressVerdict& v : a.stresses)
    facts.items.push_back(verdict_fact(v, test, a, sources));
}

Facts stress_facts(const Test& test, const Assessment& a) {
  Facts facts;
  for (const StressVerdict& v : a.stresses)
    facts.items.push_back(done_fact(v, test, a));
  return facts;
}

}  // namespace hailwright
