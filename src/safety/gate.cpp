#include "hailwright/safety/gate.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <set>

#include "core/quoted.hpp"
#include "hailwright/core/calendar.hpp"
#include "hailwright/core/contract.hpp"
#include "hailwright/core/quantity_text.hpp"
#include "hailwright/model/safety_questions.hpp"
#include "safety/gate_checks.hpp"
#include "safety/gate_rules.hpp"

namespace hailwright {

namespace {

using gate::Case;
using gate::Rule;

bool is_bound(double value) {
  return std::isfinite(value) && value >= 0.0;
}

/// A danger that is no number would pass every comparison.
void expect_bounds(const PlanDangers& d) {
  expects(is_bound(d.muzzle_energy.si()) && is_bound(d.per_area.si()),
          "an energy of the plan is no bound");
  expects(is_bound(d.no_air_reach.si()), "the reach of a miss is no bound");
  // A field that was left as it is made would ask for nothing.
  expects(d.muzzle_energy.si() > 0.0, "a plan without the energy of its ball");
  expects(d.launcher == Launcher::drop || d.no_air_reach.si() > 0.0,
          "a plan without the reach of a miss");
  expects(!d.drop_height || is_bound(d.drop_height->si()), "the height of a drop is no bound");
  expects(!d.panel_long_side || is_bound(d.panel_long_side->si()), "a panel's side is no bound");
  for (const auto& voltage : d.cold_voltages)
    expects(!voltage || is_bound(voltage->si()), "a voltage of the plan is no bound");
}

void refuse(GateResult& result, const Case& c, Refusal refusal, std::string_view hazard,
            std::string_view block, std::string_view key, std::string_view word) {
  if (!c.is(block, key, word)) return;
  result.refusals.push_back(
      {refusal, fmt::format("{}: {}: {}", block, key, word), c.answer(block, key)->origin, hazard});
}

/// What no answer makes good.
void add_refusals(GateResult& result, const Case& c) {
  const PlanDangers& d = c.dangers();
  if (d.muzzle_energy >= CautionLimits::lethal) {
    result.refusals.push_back({Refusal::lethal_energy,
                               in_unit(d.muzzle_energy, "J", 2) + " at the muzzle", d.launch_origin,
                               "body_hit_lethal"});
  }
  refuse(result, c, Refusal::plastic_pressure, "pvc_pressure", "launcher", "pressure_part",
         "any plastic part");
  refuse(result, c, Refusal::people_forward, "body_hit_any", "people", "in_front", "somebody");
  if (c.flies_forward()) {
    refuse(result, c, Refusal::people_forward, "body_hit_any", "ground", "beyond_the_panel",
           "somebody");
  }
  refuse(result, c, Refusal::installed_panel, "installed_array", "panel", "installed", "yes");
  refuse(result, c, Refusal::high_voltage_test, "hv_test", "panel", "high_voltage_test", "yes");
  const auto voltage = c.highest_voltage();
  if (voltage && *voltage > CautionLimits::dc_elv) {
    result.refusals.push_back(
        {Refusal::voltage_out_of_range, in_unit(*voltage, "V", 1) + " when cold", {}, "dc_elv"});
  }
}

/// The first caution of a rule that the plan triggers; else its first.
std::string hazard_of(const Rule& rule, const std::set<std::string_view>& triggered) {
  std::string_view ids = rule.hazards;
  const std::string_view first = ids.substr(0, ids.find(' '));
  while (!ids.empty()) {
    const std::size_t blank = std::min(ids.find(' '), ids.size());
    if (triggered.contains(ids.substr(0, blank))) return std::string(ids.substr(0, blank));
    ids.remove_prefix(std::min(blank + 1, ids.size()));
  }
  return std::string(first);
}

std::optional<AnswerFault> fault_of(const Rule& rule, const Case& c) {
  const SafetyAnswer* given = c.answer(rule.block, rule.key);
  if (given == nullptr || given->text == answer_to_come) return AnswerFault::missing;
  if (gate::is_enough(rule, c, given->text)) return std::nullopt;
  const bool is_date = rule.block == "agreed" && day_number(given->text);
  return is_date ? AnswerFault::too_old : AnswerFault::insufficient;
}

std::vector<std::string> snippet_of(const std::vector<GateFinding>& findings,
                                    const SafetyAnswers& answers) {
  std::vector<std::string> lines;
  std::string_view block;
  for (const GateFinding& finding : findings) {
    if (finding.fault == AnswerFault::insufficient) continue;
    if (lines.empty() && answers.blocks.empty()) lines.emplace_back("safety:");
    if (finding.block != block) {
      const bool begun = answers.blocks.contains(finding.block);
      lines.push_back(
          fmt::format("  {}:{}", finding.block, begun ? "  # add to the block that is there" : ""));
    }
    block = finding.block;
    const SafetyQuestion* question = find_safety_question(finding.block, finding.key);
    lines.push_back(fmt::format("    # {}: {}", question->asks, finding.wanted));
    const bool replaces = finding.fault == AnswerFault::too_old;
    lines.push_back(fmt::format("    {}: {}{}", finding.key, answer_to_come,
                                replaces ? "  # in place of the line that is there" : ""));
  }
  return lines;
}

}  // namespace

GateResult Gate::ask(const SafetyAnswers& answers, const PlanDangers& dangers,
                     const std::string& today) {
  const auto day = day_number(today);
  expects(day.has_value(), "today is no ISO date");
  expect_bounds(dangers);
  const Case c(answers, dangers, *day);
  std::set<std::string_view> triggered;
  for (const Caution* caution : plan_hazards(dangers, answers))
    triggered.insert(caution->id);
  const SourceSpan at_all = answers.origin.line > 0 ? answers.origin : dangers.launch_origin;
  GateResult result;
  add_refusals(result, c);
  for (const Rule& rule : gate::rules()) {
    if (!rule.asked(c)) continue;
    const auto fault = fault_of(rule, c);
    if (!fault) continue;
    const SafetyAnswer* given = c.answer(rule.block, rule.key);
    result.findings.push_back({*fault, std::string(rule.block), std::string(rule.key),
                               hazard_of(rule, triggered), given != nullptr ? given->text : "",
                               gate::wanted_in_words(rule, c),
                               given != nullptr ? given->origin : at_all});
  }
  result.snippet = snippet_of(result.findings, answers);
  if (result.refusals.empty() && result.findings.empty()) {
    result.clearance = Clearance(c.answer("agreed", "by")->text, c.answer("agreed", "on")->text);
  }
  return result;
}

Diagnostics gate_messages(const GateResult& result) {
  Diagnostics notes;
  for (const RefusalFinding& refusal : result.refusals) {
    notes.error("S05", refusal.where,
                fmt::format("this plan is refused, whatever is answered: {}", refusal.found),
                {std::string(caution(refusal.hazard).text)});
  }
  for (const GateFinding& finding : result.findings) {
    const std::string key = fmt::format("{}: {}", finding.block, finding.key);
    const std::string wanted = fmt::format("wanted is {}", finding.wanted);
    switch (finding.fault) {
    case AnswerFault::missing:
      notes.error("S02", finding.where,
                  fmt::format("safety: {} is not answered: {}", key,
                              find_safety_question(finding.block, finding.key)->asks),
                  {wanted});
      break;
    case AnswerFault::insufficient:
      notes.error("S03", finding.where,
                  fmt::format("safety: {} is not enough: {}", key, detail::quoted(finding.found)),
                  {wanted});
      break;
    case AnswerFault::too_old:
      notes.error(
          "S04", finding.where,
          fmt::format("safety: the answers are of another day: {}", detail::quoted(finding.found)),
          {wanted});
      break;
    }
  }
  return notes;
}

}  // namespace hailwright
