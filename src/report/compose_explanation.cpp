#include "hailwright/report/compose_explanation.hpp"

#include <fmt/format.h>

#include "report/explanation.hpp"
#include "report/judged_stages.hpp"
#include "report/sentences.hpp"

namespace hailwright {

namespace {

void paragraph(Document& out, std::string text) {
  out.blocks.push_back(Paragraph{plain(std::move(text))});
}

/// Steps 1 to 8, or why there are none.
void append_power_steps(Document& out, const PowerCase& power, bool named) {
  const PowerResult& p = power.result;
  const std::string stage = stage_text(p.stage, power.test);
  if (named) out.blocks.push_back(Heading{2, plain("Power " + stage)});
  if (!p.estimated()) {
    paragraph(out, fmt::format("Steps 1 to 8 are left out for the stage '{}': {}.", stage,
                               obstacle_sentence(p.obstacle, p.obstacle_subject)));
    return;
  }
  for (const auto explain : {explain_reading, explain_means, explain_scatter, explain_inputs,
                             explain_together, explain_answers, explain_smallest, explain_trials}) {
    Step step = explain(power);
    if (named) step.title += " (" + stage + ")";
    append_step(out, std::move(step));
  }
}

const char* why_no_power(const Test& test) {
  return test.protocol.decide.judges_power
             ? "Steps 1 to 8 are left out: no stage was read after what was done to the panel."
             : "Steps 1 to 8 are left out: the protocol decides by looks alone, so power is not "
               "judged.";
}

void append_power(Document& out, const Assessment& a, const Test& test, const SourceSet& sources) {
  const std::vector<const PowerResult*> stages = all_stages(a);
  if (stages.empty()) paragraph(out, why_no_power(test));
  for (const PowerResult* p : stages)
    append_power_steps(out, {*p, test, sources}, stages.size() > 1);
}

}  // namespace

void append_explanation(Document& out, const Judged& judged, const SourceSet& sources) {
  const Test& test = *judged.test;
  const Assessment& a = *judged.assessment;
  out.blocks.push_back(Heading{1, plain("Step by step: " + test.record.title)});
  paragraph(out, "How the judgement above comes about, each step with its formula, the numbers of "
                 "this record, and its source. Rules M1 to M18 stand in docs/measurement.md. ln is "
                 "the natural logarithm, u a standard uncertainty, nu its degrees of freedom; x "
                 "between numbers means times.");
  append_power(out, a, test, sources);
  append_step(out, test.protocol.series.empty() ? explain_stresses(a, test)
                                                : explain_shot(a, test, sources));
  append_step(out, explain_word(a, test));
}

}  // namespace hailwright
