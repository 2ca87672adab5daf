#include "report/plan_stresses.hpp"

#include <fmt/format.h>

#include <algorithm>

#include "hailwright/plan/planned_units.hpp"
#include "report/sentences.hpp"
#include "report/stress_sentences.hpp"
#include "report/words.hpp"

namespace hailwright {

namespace {

using json::Json;

std::string refusal_text(const StressRefusalFinding& r) {
  switch (r.refusal) {
  case StressRefusal::by_answer:
    if (r.hazard == "installed_array")
      return fmt::format("{}: only a loose panel, bought for the test, is stressed", r.found);
    return fmt::format("{}: {}", r.found, caution(r.hazard).text);
  case StressRefusal::unsuited:
    return r.found;
  case StressRefusal::voltage_out_of_range:
    return fmt::format("{}: too much for this stress at home; leave it to a qualified person",
                       r.found);
  }
  return r.found;
}

std::string finding_text(const StressFinding& f) {
  const std::string key =
      f.stress.empty() ? "agreed: " + f.key : fmt::format("{}: {}", f.stress, f.key);
  if (f.fault == AnswerFault::insufficient)
    return fmt::format("{}: found \"{}\"; wanted {}", key, f.found, f.wanted);
  return fmt::format("{}: {}; {}", key, f.found, f.wanted);
}

std::string setup_range(const std::string& stage, int count) {
  if (count <= 1) return stage + " 1";
  return fmt::format("{0} 1 to {0} {1}", stage, count);
}

/// Which set-ups and looks tell what this one did.
std::vector<std::string> measuring_lines(const StressPlan& stress, const Protocol& protocol) {
  std::vector<std::string> lines;
  if (protocol.decide.judges_power) {
    const PlannedUnits units = planned_units(protocol.measure);
    lines.push_back(fmt::format("set-ups: {}, then {}; the last stage read before it is the one "
                                "that it is compared with",
                                setup_range("before", units.before),
                                setup_range("after " + stress.name, units.after)));
  } else {
    lines.emplace_back("power is not judged");
  }
  lines.push_back(fmt::format("looks: start, after {}", stress.name));
  return lines;
}

std::vector<std::string> level_lines(const StressPlan& stress) {
  std::vector<std::string> lines = stress_value_lines(stress.kind->planned, stress.values);
  if (stress.level == nullptr) {
    lines.emplace_back("a choice of your own, no published level");
    return lines;
  }
  const auto& sources = stress.kind->sources;
  const auto source = std::find_if(sources.begin(), sources.end(),
                                   [&](const Citation& c) { return c.id == stress.level->source; });
  if (source != sources.end()) {
    lines.push_back(fmt::format("{}: {} ({}{}{})", stress.level->name, source->title,
                                text(source->status), source->note.empty() ? "" : "; ",
                                source->note));
  }
  return lines;
}

std::vector<std::string> make_ready_lines(const TestPlan& plan, std::size_t stress) {
  std::vector<std::string> lines;
  const auto& by_panel = plan.stress_sheet->advice[stress];
  for (std::size_t p = 0; p < by_panel.size(); ++p) {
    for (const StressAdvice& advice : by_panel[p])
      lines.push_back(
          fmt::format("{}, {}: {}", plan.outlook.panels[p].panel->name, advice.label, advice.text));
  }
  return lines;
}

void append_fact(Facts& facts, std::string label, std::vector<std::string> lines) {
  if (lines.empty()) return;
  Fact fact{std::move(label), {}};
  for (std::string& line : lines)
    fact.lines.push_back(plain(std::move(line)));
  facts.items.push_back(std::move(fact));
}

void append_one(const TestPlan& plan, std::size_t index, Document& out) {
  const StressPlan& stress = plan.protocol->stresses[index];
  out.blocks.push_back(Heading{2, plain(stress_text(stress))});
  Facts facts;
  append_fact(facts, "what is done", {std::string(stress.kind->about)});
  append_fact(facts, "planned", level_lines(stress));
  append_fact(facts, "measured", measuring_lines(stress, *plan.protocol));
  append_fact(facts, "it is", {not_equivalent_sentence(*stress.kind)});
  if (plan.stress_sheet) append_fact(facts, "make ready", make_ready_lines(plan, index));
  out.blocks.push_back(std::move(facts));
}

Table sheet_table(const StressPlan& stress) {
  Table table{"", {{"what"}, {"planned"}, {"done"}}, {}};
  table.to_fill_in = true;
  for (const StressKey& key : stress.kind->done) {
    const auto planned = stress.values.find(std::string(key.key));
    const auto& keys = stress.kind->planned;
    const auto same = std::find_if(keys.begin(), keys.end(),
                                   [&](const StressKey& k) { return k.key == key.key; });
    table.rows.push_back({fmt::format("{} ({})", key.asks, key.key),
                          planned == stress.values.end() || same == keys.end()
                              ? ""
                              : stress_value_text(*same, planned->second),
                          ""});
  }
  for (const char* what : {"day", "who was there", "seen before", "seen after", "note"})
    table.rows.push_back({what, "", ""});
  return table;
}

Json findings_json(const StressGateResult& gate) {
  Json list = Json::array();
  for (const StressFinding& f : gate.findings) {
    list.push_back({{"stress", f.stress},
                    {"key", f.key},
                    {"caution", f.hazard},
                    {"found", f.found},
                    {"wanted", f.wanted}});
  }
  return list;
}

Json stress_json(const TestPlan& plan, std::size_t index) {
  const StressPlan& stress = plan.protocol->stresses[index];
  Json j{{"name", stress.name},
         {"kind", stress.kind->word},
         {"level", stress.level != nullptr ? Json(stress.level->name) : Json(nullptr)},
         {"planned", stress_value_lines(stress.kind->planned, stress.values)},
         {"measured", measuring_lines(stress, *plan.protocol)},
         {"not_equivalent", not_equivalent_sentence(*stress.kind)}};
  if (plan.stress_sheet) j["make_ready"] = make_ready_lines(plan, index);
  return j;
}

}  // namespace

std::vector<std::string> stress_refusals(const StressGateResult& gate) {
  std::vector<std::string> lines;
  for (const StressRefusalFinding& r : gate.refusals)
    lines.push_back(refusal_text(r));
  return lines;
}

std::vector<std::string> stress_findings(const StressGateResult& gate) {
  std::vector<std::string> lines;
  int missing = 0;
  for (const StressFinding& f : gate.findings) {
    if (f.fault == AnswerFault::missing) {
      ++missing;
    } else {
      lines.push_back(finding_text(f));
    }
  }
  if (missing > 0) {
    lines.push_back(
        fmt::format("{} about the other stresses not answered", counted(missing, "question")));
  }
  return lines;
}

std::vector<std::string> stress_snippet(const TestPlan& plan) {
  std::vector<std::string> lines = plan.stress_gate.snippet;
  const auto& hail = plan.gate.findings;
  const bool hail_asks = std::any_of(hail.begin(), hail.end(), [](const GateFinding& f) {
    return f.block == "agreed" && f.fault != AnswerFault::insufficient;
  });
  if (!hail_asks) return lines;
  const auto agreed = std::find_if(lines.begin(), lines.end(), [](const std::string& line) {
    return line.starts_with("safety:");
  });
  lines.erase(agreed, lines.end());
  return lines;
}

std::string stress_foot(const Protocol& protocol) {
  std::string foot;
  for (const StressPlan& stress : protocol.stresses)
    foot += fmt::format("{}{}.", foot.empty() ? "" : " ", stress.kind->cautions.front().hazard);
  return foot;
}

void append_stress_plan(const TestPlan& plan, Document& out) {
  const auto& stresses = plan.protocol->stresses;
  if (stresses.empty()) return;
  out.blocks.push_back(Heading{1, plain("Other stresses")});
  const bool refused = !plan.gate.refusals.empty() || !plan.stress_gate.refusals.empty();
  if (!plan.stress_sheet && !plan.estimate_only && !refused) {
    out.blocks.push_back(Paragraph{plain("What to make ready is printed when all that this plan "
                                         "asks is answered.")});
  }
  for (std::size_t i = 0; i < stresses.size(); ++i)
    append_one(plan, i, out);
}

void append_stress_field_sheets(const TestPlan& plan, Document& out) {
  for (std::size_t i = 0; i < plan.protocol->stresses.size(); ++i) {
    const StressPlan& stress = plan.protocol->stresses[i];
    for (const PanelOutlook& panel : plan.outlook.panels) {
      out.blocks.push_back(PageBreak{});
      out.blocks.push_back(
          Heading{1, plain(fmt::format("Field sheet: {}, {}", stress.name, panel.panel->name))});
      Bullets list;
      for (const StressCaution& c : stress.kind->cautions)
        list.items.push_back({{std::string(c.hazard) + ". ", Tone::strong}, {std::string(c.text)}});
      out.blocks.push_back(std::move(list));
      out.blocks.push_back(sheet_table(stress));
    }
  }
}

Json stress_plan_json(const TestPlan& plan) {
  if (plan.protocol->stresses.empty()) return nullptr;
  const StressGateResult& gate = plan.stress_gate;
  Json stresses = Json::array();
  for (std::size_t i = 0; i < plan.protocol->stresses.size(); ++i)
    stresses.push_back(stress_json(plan, i));
  return {{"cleared", plan.cleared()},
          {"refusals", stress_refusals(gate)},
          {"findings", findings_json(gate)},
          {"snippet", stress_snippet(plan)},
          {"stresses", std::move(stresses)}};
}

}  // namespace hailwright
