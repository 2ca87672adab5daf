#include <fmt/format.h>

#include <algorithm>

#include "hailwright/report/compose.hpp"
#include "report/caution_items.hpp"
#include "report/judgement_bracket.hpp"
#include "report/judgement_delivery.hpp"
#include "report/judgement_done.hpp"
#include "report/judgement_energy.hpp"
#include "report/judgement_logs.hpp"
#include "report/judgement_looks.hpp"
#include "report/judgement_pattern.hpp"
#include "report/judgement_power.hpp"
#include "report/judgement_shading.hpp"
#include "report/judgement_stress.hpp"
#include "report/plan_sentences.hpp"
#include "report/sentences.hpp"

namespace hailwright {

namespace {

class JudgementWriter {
public:
  JudgementWriter(const Judged& judged, const SourceSet& sources, Document& out)
      : judged_(judged), test_(*judged.test), a_(*judged.assessment), sources_(sources), out_(out) {
  }

  void write() {
    out_.blocks.push_back(Heading{1, plain(test_.record.title)});
    out_.blocks.push_back(Paragraph{{{headline(test_, a_), Tone::strong}}});
    out_.blocks.push_back(verdict_facts(test_, a_, sources_));
    beside("What was delivered", delivery_facts(test_, a_));
    changed();
    beside("Other stresses", stress_facts(test_, a_));
    beside("Where damage began", bracket_facts(test_, a_, sources_));
    beside("What the loss looks like", pattern_facts(test_, a_, sources_));
    from_the_loggers();
    beside("Sessions by meter", energy_facts(test_, a_, sources_));
    beside("In partial shade", shading_facts(test_, a_, sources_));
    seen();
    append_budget(out_, a_, test_);
    assumed();
    as_it_was_done();
  }

private:
  void heading(const char* text) { out_.blocks.push_back(Heading{2, plain(text)}); }

  void changed() {
    heading("What changed");
    Facts facts = power_facts(judged_, sources_);
    add_fact(facts, "looks", look_lines(test_, a_));
    out_.blocks.push_back(std::move(facts));
  }

  void beside(const char* title, Facts facts) {
    if (facts.items.empty()) return;
    heading(title);
    out_.blocks.push_back(std::move(facts));
  }

  void from_the_loggers() {
    Facts facts = log_facts(test_, a_, Audience::reviewer);
    if (facts.items.empty()) return;
    heading("From the loggers");
    out_.blocks.push_back(std::move(facts));
  }

  void seen() {
    Facts facts;
    append_detection_facts(facts, a_, test_);
    append_evidence_facts(facts, a_, test_);
    if (facts.items.empty()) return;
    heading("What this test could have seen");
    out_.blocks.push_back(std::move(facts));
  }

  void assumed() {
    if (a_.assumed.empty()) return;
    heading("Assumed for you");
    append_assumed(out_, a_, Audience::reviewer);
  }

  void as_it_was_done() {
    Facts facts;
    const Record& r = test_.record;
    add_fact(facts, "unlike protocol", r.unlike_protocol);
    add_fact(facts, "incidents", r.incidents.value_or(std::vector<std::string>{}));
    add_fact(facts, "left out", skipped_lines(test_, sources_));
    if (r.disclosure) {
      add_fact(facts, "who",
               {fmt::format("bought by {}; interests: {}; the panel goes: {}", bought_by_text(r),
                            or_unstated(r.disclosure->interests),
                            or_unstated(r.disclosure->panel_goes))});
    }
    add_fact(facts, "plan", {plan_kept_sentence(test_)});
    heading("As it was done");
    out_.blocks.push_back(std::move(facts));
  }

  const Judged& judged_;
  const Test& test_;
  const Assessment& a_;
  const SourceSet& sources_;
  Document& out_;
};

}  // namespace

Document compose_judgement(const std::vector<Judged>& judged, const SourceSet& sources) {
  Document out;
  for (const Judged& j : judged)
    JudgementWriter(j, sources, out).write();
  append_cautions(out, cautions_of(judged));
  out.blocks.push_back(Paragraph{plain(std::string(closing_sentence(judged)))});
  return out;
}

}  // namespace hailwright
