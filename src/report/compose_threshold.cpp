#include "hailwright/report/compose_threshold.hpp"

#include <fmt/format.h>

#include "hailwright/core/quantity_text.hpp"
#include "report/caution_items.hpp"
#include "report/plan_sentences.hpp"
#include "report/threshold_sentences.hpp"

namespace hailwright {

namespace {

class ThresholdWriter {
public:
  ThresholdWriter(const ThresholdAnswer& answer, Document& out) : answer_(answer), out_(out) {}

  void write() {
    out_.title = "Damage threshold: " + answer_.specimens->title;
    out_.foot = shortest_caution();
    result();
    if (auto picture = threshold_picture(answer_)) out_.blocks.push_back(std::move(*picture));
    missing();
    tests();
    next();
    append_cautions(out_, answer_.cautions);
    out_.blocks.push_back(Paragraph{plain(std::string(threshold_scope_sentence()))});
  }

private:
  void heading(const char* text) { out_.blocks.push_back(Heading{1, plain(text)}); }

  void result() {
    const DamageThreshold& t = answer_.threshold;
    Facts facts;
    const auto fact = [&](const char* label, std::vector<Runs> lines) {
      facts.items.push_back({label, std::move(lines)});
    };
    fact("counts as damage", {plain(answer_.specimens->damage)});
    fact("tests", {plain(tested_sentence(t))});
    if (t.estimate) {
      fact("E50, half are damaged", energy_lines(*t.estimate, t.estimate->e50));
      fact("E10, one in ten", energy_lines(*t.estimate, t.estimate->e10));
      fact("scatter", {plain(scatter_sentence(*t.estimate))});
    } else {
      fact("estimate", {{{"none: the tests give a bracket only", Tone::open}}});
    }
    fact("bracket", {plain(bracket_sentence(t.bracket))});
    if (t.staircase)
      fact("up and down", {plain(staircase_sentence(*t.staircase, *answer_.specimens))});
    const bool warned = t.doubt && t.doubt->notable();
    fact("energies", {{{doubt_sentence(t), warned ? Tone::bad : Tone::plain}}});
    if (t.estimate) {
      fact("method", {plain("probit of damage on ln energy by maximum likelihood; intervals by "
                            "profile likelihood")});
    }
    out_.blocks.push_back(std::move(facts));
  }

  [[nodiscard]] static std::vector<Runs> energy_lines(const ThresholdEstimate& estimate,
                                                      const ThresholdEnergy& energy) {
    const bool shown = shows_threshold(estimate);
    std::vector<Runs> lines{{{threshold_sentence(energy), shown ? Tone::strong : Tone::plain}}};
    if (!shown) lines.push_back({{std::string(hint_only_sentence()), Tone::open}});
    if (energy.with_shared_error)
      lines.push_back(plain(shared_error_sentence(*energy.with_shared_error)));
    return lines;
  }

  void missing() {
    if (answer_.threshold.obstacles.empty()) return;
    heading("What is missing");
    Bullets list;
    for (const ThresholdObstacle obstacle : answer_.threshold.obstacles)
      list.items.push_back(plain(obstacle_sentence(obstacle, answer_.threshold)));
    out_.blocks.push_back(std::move(list));
  }

  void tests() {
    if (answer_.specimens->tests.empty()) return;
    heading("Tests");
    Table table{
        "In the order in which they were done",
        {{"test", Align::right}, {"specimen"}, {"energy", Align::right}, {"damaged"}, {"note"}},
        {}};
    int number = 0;
    for (const SpecimenTest& test : answer_.specimens->tests) {
      table.rows.push_back({std::to_string(++number), test.specimen,
                            threshold_energy_text(test.energy), test.damaged ? "yes" : "no",
                            test.note});
    }
    out_.blocks.push_back(std::move(table));
  }

  void next() {
    heading("Next test");
    out_.blocks.push_back(Paragraph{plain(next_sentence(answer_))});
    if (auto lines = next_to_copy(answer_); !lines.empty())
      out_.blocks.push_back(Snippet{std::move(lines)});
    if (!answer_.next || answer_.next->obstacle != NextObstacle::gate_closed) return;
    const GateResult& gate = *answer_.next->gate;
    Bullets list;
    for (const RefusalFinding& refusal : gate.refusals)
      list.items.push_back({{refusal_sentence(refusal), Tone::strong}});
    for (const GateFinding& finding : gate.findings) {
      if (finding.fault != AnswerFault::missing)
        list.items.push_back(plain(finding_sentence(finding)));
    }
    if (!list.items.empty()) out_.blocks.push_back(std::move(list));
    if (!gate.refusals.empty() || gate.snippet.empty()) return;
    out_.blocks.push_back(Paragraph{plain("Fill this in, truthfully, in the protocol file:")});
    out_.blocks.push_back(Snippet{gate.snippet});
  }

  const ThresholdAnswer& answer_;
  Document& out_;
};

}  // namespace

Document compose_threshold(const ThresholdAnswer& answer) {
  Document out;
  ThresholdWriter(answer, out).write();
  return out;
}

}  // namespace hailwright
