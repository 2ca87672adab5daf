#include "hailwright/safety/stress_gate.hpp"

#include <algorithm>

#include "hailwright/core/contract.hpp"
#include "support/catch.hpp"
#include "support/stress_examples.hpp"

using namespace hailwright;
using namespace hailwright::testing;

namespace {

constexpr const char* today = "2026-06-20";

Protocol protocol_of(std::vector<std::string_view> words) {
  Protocol protocol;
  for (const std::string_view word : words)
    protocol.stresses.push_back(planned_by_examples(*find_stress_kind(word)));
  protocol.safety.blocks["agreed"] = {{"by", {"MK", {}}}, {"on", {"2026-06-10", {}}}};
  return protocol;
}

std::vector<Panel> panels_for(const Protocol& protocol) {
  return {panel_for(*protocol.stresses.front().kind, protocol.stresses.front().values)};
}

StressGateResult ask(const Protocol& protocol) {
  return StressGate::ask(protocol, panels_for(protocol), today);
}

bool has_line(const StressGateResult& result, const std::string& line) {
  return std::any_of(result.snippet.begin(), result.snippet.end(),
                     [&](const std::string& l) { return l.find(line) != std::string::npos; });
}

}  // namespace

TEST_CASE("stress gate: answered by the examples every kind is cleared") {
  for (const StressKind& kind : stress_kinds()) {
    CAPTURE(kind.word);
    const Protocol protocol = protocol_of({kind.word});
    const StressGateResult result = ask(protocol);
    CHECK(result.refusals.empty());
    CHECK(result.findings.empty());
    CHECK(result.snippet.empty());
    REQUIRE(result.clearance);
    CHECK(result.clearance->agreed_by() == "MK");
    CHECK(result.clearance->agreed_on() == "2026-06-10");
    CHECK_FALSE(
        stress_advice(protocol.stresses[0], panels_for(protocol)[0], *result.clearance).empty());
    CHECK(stress_gate_messages(result).items().empty());
  }
}

TEST_CASE("stress gate: each answer left out or bad keeps it shut") {
  for (const StressKind& kind : stress_kinds()) {
    for (const StressQuestion& question : kind.questions) {
      const std::string key(question.asked.key);
      CAPTURE(kind.word, key);
      Protocol protocol = protocol_of({kind.word});
      protocol.stresses[0].safety.erase(key);
      StressGateResult result = ask(protocol);
      REQUIRE(result.findings.size() == 1);
      CHECK_FALSE(result.clearance);
      CHECK(result.findings[0].fault == AnswerFault::missing);
      CHECK(result.findings[0].key == key);
      CHECK(result.findings[0].hazard == question.caution);
      CHECK(has_line(result, "      " + key + ": ???"));
      CHECK(stress_gate_messages(result).items().at(0).code == "S02");

      protocol.stresses[0].safety[key] = {std::string(answer_to_come), {}};
      CHECK(ask(protocol).findings.at(0).fault == AnswerFault::missing);

      protocol.stresses[0].safety[key] = {"anything else", {}};
      result = ask(protocol);
      REQUIRE(result.findings.size() == 1);
      CHECK(result.findings[0].fault == AnswerFault::insufficient);
      CHECK(result.snippet.empty());
      CHECK(stress_gate_messages(result).items().at(0).code == "S03");

      if (question.refused_for.empty()) continue;
      protocol.stresses[0].safety[key] = {std::string(question.refused_for), {}};
      result = ask(protocol);
      CHECK(result.refusals.at(0).refusal == StressRefusal::by_answer);
      CHECK(stress_gate_messages(result).items().at(0).code == "S05");
      CHECK_FALSE(result.clearance);
    }
  }
}

TEST_CASE("stress gate: one stress of two without its answers shuts both") {
  Protocol protocol = protocol_of({"static load", "spray"});
  CHECK(ask(protocol).clearance);
  protocol.stresses[1].safety.clear();
  const StressGateResult result = ask(protocol);
  CHECK_FALSE(result.clearance);
  CHECK(result.findings.size() == find_stress_kind("spray")->questions.size());
  CHECK(result.snippet.at(0) == "# under `stresses:`, in the entry spray");
  CHECK(result.snippet.at(1) == "    safety:");
  // Of an entry that has answered something, lines to be added; then the next entry's own.
  const std::string left_out = std::string(find_stress_kind("static load")->questions[0].asked.key);
  protocol.stresses[0].safety.erase(left_out);
  const StressGateResult both = ask(protocol);
  CHECK(both.snippet.at(0) == "# under `stresses:`, in the entry static load");
  CHECK(both.snippet.at(1) == "    safety:  # add to the block that is there");
  CHECK(both.snippet.at(4) == "# under `stresses:`, in the entry spray");
  CHECK(both.snippet.at(5) == "    safety:");
}

TEST_CASE("stress gate: who agreed, and when") {
  Protocol protocol = protocol_of({"static load"});
  protocol.safety.blocks["agreed"]["on"].text = "2026-05-20";
  StressGateResult result = ask(protocol);  // 31 days
  REQUIRE(result.findings.size() == 1);
  CHECK(result.findings[0].fault == AnswerFault::too_old);
  CHECK(stress_gate_messages(result).items().at(0).code == "S04");
  CHECK(has_line(result, "in place of the line that is there"));
  protocol.safety.blocks["agreed"]["on"].text = "2026-05-21";
  CHECK(ask(protocol).clearance);
  protocol.safety.blocks["agreed"]["on"].text = "2026-06-21";
  CHECK_FALSE(ask(protocol).clearance);
  protocol.safety.blocks.clear();
  result = ask(protocol);
  CHECK(result.findings.size() == 2);
  CHECK(result.findings[0].where.line == protocol.stresses[0].origin.line);
  CHECK(result.snippet ==
        std::vector<std::string>{
            "safety:", "  agreed:", "    # initials of who answered: initials", "    by: ???",
            "    # day of the answers: " + result.findings[1].wanted, "    on: ???"});
}

TEST_CASE("stress gate: answers without who and when are asked for those at their block") {
  Protocol protocol = protocol_of({"static load"});
  protocol.stresses[0].origin.line = 20;
  protocol.safety.origin.line = 7;
  protocol.safety.blocks = {{"agreed", {{"by", {"MK", {}}}, {"on", {"in June", {}}}}}};
  StressGateResult result = ask(protocol);
  REQUIRE(result.findings.size() == 1);
  CHECK(result.findings[0].fault == AnswerFault::insufficient);  // no day, hence not an old one
  CHECK(result.snippet.empty());
  protocol.safety.blocks["agreed"].erase("on");
  result = ask(protocol);
  REQUIRE(result.findings.size() == 1);
  CHECK(result.findings[0].where.line == 7);
  CHECK(result.snippet.at(0) == "safety:  # add to the block that is there");
  CHECK(result.snippet.at(1) == "  agreed:  # add to the block that is there");
  const Diagnostics notes = stress_gate_messages(result);
  CHECK_THAT(notes.items().at(0).message, Contains("safety: agreed: on is not answered"));
  protocol.safety.blocks.clear();
  protocol.safety.origin.line = 0;
  CHECK(ask(protocol).findings.at(0).where.line == 20);
}

TEST_CASE("stress gate: panels that a stress is not for are refused, any of them") {
  const Protocol bend = protocol_of({"bending"});
  const std::vector<Panel> both{flexible_panel(), glass_panel()};
  const StressGateResult result = StressGate::ask(bend, both, today);
  REQUIRE(result.refusals.size() == 1);
  CHECK(result.refusals[0].refusal == StressRefusal::unsuited);
  CHECK_THAT(result.refusals[0].found, Contains("Rigid A"));
  CHECK_FALSE(result.clearance);
}

TEST_CASE("stress gate: a voltage out of range is refused, to spray from 60 V") {
  std::vector<Panel> panels{glass_panel()};
  panels[0].open_voltage = Voltage::from_si(55.0);  // 60.8 V at -10 degC
  StressGateResult result = StressGate::ask(protocol_of({"spray"}), panels, today);
  REQUIRE(result.refusals.size() == 1);
  CHECK(result.refusals[0].refusal == StressRefusal::voltage_out_of_range);
  CHECK(result.refusals[0].hazard == "dc_dry");
  CHECK(StressGate::ask(protocol_of({"static load"}), panels, today).clearance);
  panels[0].open_voltage = Voltage::from_si(110.0);  // 121.6 V
  result = StressGate::ask(protocol_of({"static load"}), panels, today);
  REQUIRE(result.refusals.size() == 1);
  CHECK(result.refusals[0].hazard == "dc_elv");
}

TEST_CASE("stress gate: without stresses there is nothing to be asked, and no leave") {
  const StressGateResult result = StressGate::ask(Protocol(), {}, today);
  CHECK(result.findings.empty());
  CHECK_FALSE(result.clearance);
  CHECK_THROWS_AS(StressGate::ask(Protocol(), {}, "yesterday"), BugError);
}

TEST_CASE("stress gate: the cautions of a plan with stresses") {
  const Protocol protocol = protocol_of({"cable pull"});
  std::vector<Panel> panels{glass_panel()};
  CautionFacts facts = stress_caution_facts(protocol, panels);
  CHECK(facts.stresses == std::vector<std::string_view>{"cable pull"});
  CHECK(facts.installed == false);
  CHECK_FALSE(facts.launches);
  CHECK(std::abs(facts.open_voltage_cold->si() - 24.31) < 1e-9);
  panels.push_back(glass_panel());
  panels[1].open_voltage = Voltage::from_si(20.0);
  CHECK(std::abs(stress_caution_facts(protocol, panels).open_voltage_cold->si() - 24.31) < 1e-9);
  panels[1].open_voltage.reset();
  CHECK_FALSE(stress_caution_facts(protocol, panels).open_voltage_cold);
  panels[0].open_voltage.reset();
  CHECK_FALSE(stress_caution_facts(protocol, panels).open_voltage_cold);
  panels[0].open_voltage = Voltage::from_si(50.0);
  CHECK(stress_caution_facts(protocol, panels).open_voltage_cold);
  const auto shown = cautions_for(facts);
  for (const char* id : {"pull_test", "pull_test_live", "pv_energised", "reuse_tested_panel"}) {
    CAPTURE(id);
    CHECK(std::any_of(shown.begin(), shown.end(), [&](const Caution* c) { return c->id == id; }));
  }
}

TEST_CASE("stress gate: a panel may be installed until every stress answers that it is not") {
  Protocol protocol = protocol_of({"cable pull", "static load"});
  const std::vector<Panel> panels{glass_panel()};
  CHECK(stress_caution_facts(protocol, panels).installed == false);
  protocol.stresses[1].safety["installed"].text = "yes";
  CHECK_FALSE(stress_caution_facts(protocol, panels).installed.has_value());
  protocol.stresses[1].safety.erase("installed");
  CHECK_FALSE(stress_caution_facts(protocol, panels).installed.has_value());
}

TEST_CASE("stress gate: answers are held against the plan and the panel") {
  // Found by review: bags of 15 kg were cleared by "10 kg", 49 V of a label by "24 V".
  Protocol bags = protocol_of({"static load"});
  bags.stresses[0].values["bag"].si = 15.0;
  StressGateResult result = ask(bags);
  REQUIRE(result.findings.size() == 1);
  CHECK(result.findings[0].key == "heaviest_bag");
  CHECK(result.findings[0].fault == AnswerFault::insufficient);
  bags.stresses[0].safety["heaviest_bag"].text = "15 kg";
  CHECK(ask(bags).clearance);
  bags.stresses[0].safety["heaviest_bag"].text = "10 kg";
  bags.stresses[0].values.erase("bag");
  CHECK(ask(bags).clearance);

  const Protocol spray = protocol_of({"spray"});
  std::vector<Panel> panels = panels_for(spray);
  panels[0].open_voltage.reset();  // nothing to hold the answer against
  CHECK(StressGate::ask(spray, panels, today).clearance);
  panels[0].open_voltage = Voltage::from_si(24.0);
  CHECK(StressGate::ask(spray, panels, today).clearance);
  panels[0].open_voltage = Voltage::from_si(49.0);
  result = StressGate::ask(spray, panels, today);
  REQUIRE(result.findings.size() == 1);
  CHECK(result.findings[0].key == "voltage");
  CHECK_FALSE(result.clearance);
}
