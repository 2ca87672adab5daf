#include "hailwright/safety/stress_gate.hpp"

#include <fmt/format.h>

#include <algorithm>

#include "core/quoted.hpp"
#include "hailwright/core/calendar.hpp"
#include "hailwright/core/contract.hpp"
#include "hailwright/core/quantity_text.hpp"
#include "hailwright/model/safety_questions.hpp"
#include "safety/gate_checks.hpp"

namespace hailwright {

namespace {

const SafetyAnswer* answer_to(const StressPlan& stress, const StressQuestion& question) {
  const auto found = stress.safety.find(std::string(question.asked.key));
  return found == stress.safety.end() ? nullptr : &found->second;
}

bool is_answered(const SafetyAnswer* answer) {
  return answer != nullptr && answer->text != answer_to_come;
}

/// Asks one protocol, entry after entry.
class Asking {
public:
  Asking(const Protocol& protocol, std::span<const Panel> panels, long today)
      : protocol_(protocol), panels_(panels), agreed_(protocol.safety, no_dangers_, today) {}

  StressGateResult ask() {
    for (const StressPlan& stress : protocol_.stresses) {
      for (const Panel& panel : panels_)
        hold_against(stress, panel);
      for (const StressQuestion& question : stress.kind->questions)
        put(stress, question);
    }
    put_agreed("by", gate::initials_enough, "initials");
    put_agreed("on", gate::date_enough, gate::date_wanted(agreed_));
    return std::move(result_);
  }

private:
  void refuse(StressRefusal why, const StressPlan& stress, std::string found, SourceSpan where,
              std::string_view hazard) {
    result_.refusals.push_back({why, stress.name, std::move(found), where, hazard});
  }

  /// What no answer makes good for this panel.
  void hold_against(const StressPlan& stress, const Panel& panel) {
    const StressKind& kind = *stress.kind;
    if (kind.unsuited) {
      if (const auto why = kind.unsuited(stress.values, panel)) {
        refuse(StressRefusal::unsuited, stress,
               fmt::format("{}, {}: {}", stress.name, panel.name, *why), stress.origin,
               kind.cautions.front().id);
      }
    }
    const auto voltage = coldest_open_voltage(panel);
    if (!voltage || voltage->si() < kind.refused_from_V) return;
    const bool out_of_range = *voltage >= CautionLimits::dc_elv;
    refuse(StressRefusal::voltage_out_of_range, stress,
           fmt::format("{}, {}: {} when cold", stress.name, panel.name, in_unit(*voltage, "V", 1)),
           stress.origin, out_of_range ? "dc_elv" : "dc_dry");
  }

  /// What would be enough where an amount is less than the plan or a panel's label says.
  std::optional<std::string> contradicted(const StressPlan& stress, const StressQuestion& question,
                                          const std::string& answer) {
    const auto amount = read_amount(answer, question.asked.measure).value;
    if (!amount) return std::nullopt;  // a word
    if (question.asked.key == "heaviest_bag") {
      const auto bag = stress.values.find("bag");
      if (bag == stress.values.end() || amount->si >= bag->second.si) return {};
      return fmt::format("not less than the `bag` of the plan, {} kg", fixed(bag->second.si, 1));
    }
    if (question.asked.key != "voltage") return std::nullopt;
    for (const Panel& panel : panels_) {
      if (!panel.open_voltage || amount->si >= panel.open_voltage->si()) continue;
      return fmt::format("not less than what the file of {} states, {}", panel.name,
                         in_unit(*panel.open_voltage, "V", 1));
    }
    return std::nullopt;
  }

  void put(const StressPlan& stress, const StressQuestion& question) {
    const SafetyAnswer* given = answer_to(stress, question);
    const bool answered = is_answered(given);
    if (answered && !question.refused_for.empty() && given->text == question.refused_for) {
      return refuse(StressRefusal::by_answer, stress,
                    fmt::format("{}: {}: {}", stress.name, question.asked.key, given->text),
                    given->origin, question.caution);
    }
    auto wanted = question.missing(answered ? given->text : std::string());
    if (!wanted) wanted = contradicted(stress, question, given->text);
    if (!wanted) return;
    result_.findings.push_back({answered ? AnswerFault::insufficient : AnswerFault::missing,
                                stress.name, std::string(question.asked.key),
                                std::string(question.caution), std::string(question.asked.asks),
                                answered ? given->text : "", *wanted,
                                given != nullptr ? given->origin : stress.origin});
  }

  void put_agreed(std::string_view key, bool (*enough)(const gate::Case&, const std::string&),
                  std::string wanted) {
    const SafetyAnswer* given = agreed_.answer("agreed", key);
    const bool answered = is_answered(given);
    if (answered && enough(agreed_, given->text)) return;
    AnswerFault fault = answered ? AnswerFault::insufficient : AnswerFault::missing;
    if (answered && day_number(given->text)) fault = AnswerFault::too_old;
    const SourceSpan nowhere = protocol_.safety.origin.line > 0 ? protocol_.safety.origin
                                                                : protocol_.stresses.front().origin;
    result_.findings.push_back({fault,
                                {},
                                std::string(key),
                                {},
                                std::string(find_safety_question("agreed", key)->asks),
                                answered ? given->text : "",
                                std::move(wanted),
                                given != nullptr ? given->origin : nowhere});
  }

  const Protocol& protocol_;
  std::span<const Panel> panels_;
  PlanDangers no_dangers_;  ///< initials and day ask for none
  gate::Case agreed_;
  StressGateResult result_;
};

/// Lines for what is missing or outdated, entry after entry, then of `agreed`.
class Snippet {
public:
  Snippet(const Protocol& protocol, const std::vector<StressFinding>& findings)
      : protocol_(protocol) {
    for (const StressFinding& finding : findings) {
      if (finding.fault != AnswerFault::insufficient) add(finding);
    }
  }
  [[nodiscard]] std::vector<std::string> lines() && { return std::move(lines_); }

private:
  void add(const StressFinding& finding) {
    if (lines_.empty() || finding.stress != entry_) begin(finding.stress);
    entry_ = finding.stress;
    const std::string_view indent = finding.stress.empty() ? "    " : "      ";
    lines_.push_back(fmt::format("{}# {}: {}", indent, finding.asks, finding.wanted));
    const bool replaces = finding.fault == AnswerFault::too_old;
    lines_.push_back(fmt::format("{}{}: {}{}", indent, finding.key, answer_to_come,
                                 replaces ? "  # in place of the line that is there" : ""));
  }

  void begin(const std::string& stress) {
    if (stress.empty()) return begin_agreed();
    lines_.push_back(fmt::format("# under `stresses:`, in the entry {}", stress));
    const bool begun = std::any_of(
        protocol_.stresses.begin(), protocol_.stresses.end(),
        [&](const StressPlan& plan) { return plan.name == stress && !plan.safety.empty(); });
    lines_.push_back(
        fmt::format("    safety:{}", begun ? "  # add to the block that is there" : ""));
  }

  void begin_agreed() {
    const bool answers = !protocol_.safety.blocks.empty();
    const bool begun = protocol_.safety.blocks.contains("agreed");
    lines_.push_back(fmt::format("safety:{}", answers ? "  # add to the block that is there" : ""));
    lines_.push_back(fmt::format("  agreed:{}", begun ? "  # add to the block that is there" : ""));
  }

  const Protocol& protocol_;
  std::string entry_;
  std::vector<std::string> lines_;
};

std::string place_of(const StressFinding& finding) {
  if (finding.stress.empty()) return fmt::format("safety: agreed: {}", finding.key);
  return fmt::format("safety of {}: {}", finding.stress, finding.key);
}

void add_finding(Diagnostics& notes, const StressFinding& finding) {
  const std::string wanted = fmt::format("wanted is {}", finding.wanted);
  switch (finding.fault) {
  case AnswerFault::missing:
    notes.error("S02", finding.where,
                fmt::format("{} is not answered: {}", place_of(finding), finding.asks), {wanted});
    return;
  case AnswerFault::insufficient:
    notes.error(
        "S03", finding.where,
        fmt::format("{} is not enough: {}", place_of(finding), detail::quoted(finding.found)),
        {wanted});
    return;
  case AnswerFault::too_old:
    notes.error(
        "S04", finding.where,
        fmt::format("safety: the answers are of another day: {}", detail::quoted(finding.found)),
        {wanted});
    return;
  }
  fail_contract("unknown fault of an answer");
}

/// Whether every stress answers that its panel is installed nowhere.
bool nothing_installed(const Protocol& protocol) {
  return std::all_of(protocol.stresses.begin(), protocol.stresses.end(), [](const auto& stress) {
    const auto found = stress.safety.find("installed");
    return found != stress.safety.end() && found->second.text == "no";
  });
}

/// The highest voltage of cold panels; nothing where an unknown one may be the highest.
std::optional<Voltage> highest_voltage(std::span<const Panel> panels) {
  std::optional<Voltage> highest;
  bool unknown = false;
  for (const Panel& panel : panels) {
    const auto voltage = coldest_open_voltage(panel);
    unknown = unknown || !voltage;
    if (voltage) highest = highest ? std::max(*highest, *voltage) : *voltage;
  }
  if (unknown && highest && *highest < CautionLimits::dc_wet) return std::nullopt;
  return highest;
}

}  // namespace

StressGateResult StressGate::ask(const Protocol& protocol, std::span<const Panel> panels,
                                 const std::string& today) {
  const auto day = day_number(today);
  expects(day.has_value(), "today is no ISO date");
  if (protocol.stresses.empty()) return {};
  StressGateResult result = Asking(protocol, panels, *day).ask();
  result.snippet = Snippet(protocol, result.findings).lines();
  if (result.refusals.empty() && result.findings.empty()) {
    const auto& agreed = protocol.safety.blocks.at("agreed");
    result.clearance = StressClearance(agreed.at("by").text, agreed.at("on").text);
  }
  return result;
}

Diagnostics stress_gate_messages(const StressGateResult& result) {
  Diagnostics notes;
  for (const StressRefusalFinding& refusal : result.refusals) {
    notes.error("S05", refusal.where,
                fmt::format("this stress is refused, whatever is answered: {}", refusal.found),
                {std::string(caution(refusal.hazard).text)});
  }
  for (const StressFinding& finding : result.findings)
    add_finding(notes, finding);
  return notes;
}

std::vector<StressAdvice> stress_advice(const StressPlan& stress, const Panel& panel,
                                        const StressClearance& /*leave*/) {
  return stress.kind->advice(stress.values, panel);
}

std::vector<std::string_view> cautions_of_stress(const StressKind& kind) {
  std::vector<std::string_view> ids;
  const auto add = [&](std::string_view id) {
    if (std::find(ids.begin(), ids.end(), id) == ids.end()) ids.push_back(id);
  };
  for (const StressCaution& own : kind.cautions)
    add(own.id);
  for (const StressQuestion& question : kind.questions)
    add(question.caution);
  return ids;
}

CautionFacts stress_caution_facts(const Protocol& protocol, std::span<const Panel> panels) {
  CautionFacts facts;
  facts.panel_present = true;
  facts.open_voltage_cold = highest_voltage(panels);
  if (nothing_installed(protocol)) facts.installed = false;
  facts.broken = true;  // a plan to stress a panel cannot rule it out
  facts.power_station = names_power_station(protocol.measure.load);
  facts.published = true;
  for (const StressPlan& stress : protocol.stresses)
    facts.stresses.push_back(stress.kind->word);
  return facts;
}

}  // namespace hailwright
