#include <fmt/format.h>

#include <algorithm>

#include "hailwright/core/quantity_text.hpp"
#include "hailwright/report/pictures.hpp"
#include "report/judged_stages.hpp"
#include "report/judgement_delivery.hpp"
#include "report/judgement_done.hpp"
#include "report/judgement_power.hpp"
#include "report/plan_sentences.hpp"
#include "report/report_sections.hpp"
#include "report/sentences.hpp"
#include "report/words.hpp"

namespace hailwright {

namespace {

std::string stage_prefix(const PowerResult& p, const ReportPart& part) {
  const bool alone = all_stages(part.assessment).size() == 1 && p.stage.kind != StageKind::later;
  return alone ? "" : told_stage(p, part.test) + ": ";
}

/// The loss of a stage in per cent, or that it was not compared.
Runs loss_head(const PowerResult& p, const ReportPart& part) {
  const std::string prefix = stage_prefix(p, part);
  if (p.estimated()) return {{prefix + loss_line(p), Tone::strong}};
  return {{prefix + "not compared, "},
          {"for a reason given below", Tone::plain, part.link("power")}};
}

/// The loss of a stage, in watts too; what is wrong with it stands in the section.
void add_loss(Fact& fact, const PowerResult& p, const ReportPart& part) {
  fact.lines.push_back(loss_head(p, part));
  if (!p.estimated()) return;
  if (p.before) fact.lines.push_back(plain(watts_text(p)));
  if (!p.usable()) {
    fact.lines.push_back({{p.valid ? "not decided by" : "not valid", Tone::open},
                          {p.valid ? ": no answer is drawn from it" : ": a check of it failed"},
                          {", see "},
                          {"power", Tone::plain, part.link("power")}});
    return;
  }
  fact.lines.push_back({{fmt::format("beyond the limit of {}? ", limit_text(p.limit))},
                        {beyond_answer(p), p.is_beyond()   ? Tone::bad
                                           : p.is_within() ? Tone::good
                                                           : Tone::open}});
}

Fact loss_fact(const ReportPart& part) {
  Fact fact{"power", {}};
  if (!part.protocol.decide.judges_power) {
    fact.lines.push_back(plain("not judged: the protocol judges by looks alone"));
  } else if (all_stages(part.assessment).empty()) {
    fact.lines.push_back(plain(part.protocol.series.empty()
                                   ? "not compared: there are no readings after what was done"
                                   : "not compared: there are no readings after the shots"));
  }
  const std::vector<const PowerResult*> stages = all_stages(part.assessment);
  for (const PowerResult* p : stages)
    add_loss(fact, *p, part);
  if (!part.assessment.later_power.empty())
    fact.lines.push_back(plain("what is measured later adds to the verdict, it replaces nothing"));
  if (!stages.empty()) {
    fact.lines.push_back(plain("compared: " + comparison_text(part.test)));
  }
  return fact;
}

/// A line a stage; why there is none, where there is none.
std::vector<Runs> loss_heads(const ReportPart& part) {
  std::vector<Runs> heads;
  for (const PowerResult* p : all_stages(part.assessment))
    heads.push_back(loss_head(*p, part));
  if (heads.empty()) heads.push_back(loss_fact(part).lines.front());
  return heads;
}

/// "large, ice of 35 mm: 5 of 5 places struck with at least 7.59 J each (95 %), as falling hail of
/// 35 to 41 mm, ...".
std::string hail_line(const SeriesDelivery& d, const ReportPart& part) {
  const SeriesPlan& plan = part.protocol.series[d.series];
  const bool known = d.at_least && d.at_least->si() > 0.0;
  return fmt::format("{}, ice of {}: {}{}", plan.name, in_unit(plan.target.diameter, "mm", 0),
                     struck_text(d),
                     known ? ", as falling hail of " + hailstone_size_text(*d.at_least) : "");
}

Fact hail_fact(const ReportPart& part) {
  Fact fact{"hail", {}};
  for (const SeriesDelivery& d : part.assessment.delivery)
    fact.lines.push_back(plain(hail_line(d, part)));
  return fact;
}

/// The word of each stress other than hail.
Fact stresses_fact(const ReportPart& part) {
  Fact fact{"other stresses", {}};
  for (const StressVerdict& v : part.assessment.stresses) {
    const StressDone& done = part.record.stresses[v.done];
    fact.lines.push_back({{part.protocol.stresses[done.stress].name + ": "},
                          {std::string(word_text(v.word)), word_tone(v.word)},
                          {", see "},
                          {"other stresses", Tone::plain, part.link("stresses")}});
  }
  return fact;
}

Fact throws_fact(const ReportPart& part) {
  SeriesDelivery all;
  for (const SeriesDelivery& d : part.assessment.delivery) {
    all.throws += d.throws;
    all.hits += d.hits;
    all.off_places += d.off_places;
    all.misses += d.misses;
    all.broken += d.broken;
  }
  return {"throws", {plain(throws_text(all))}};
}

Fact who_fact(const ReportPart& part) {
  const Disclosure said = part.record.disclosure.value_or(Disclosure{});
  return {"panel",
          {plain("bought by: " + bought_by_text(part.record)),
           plain("goes now: " + or_unstated(said.panel_goes))}};
}

/// The names of cautions, as many as are said of this test.
Runs named_cautions(const char* when, std::initializer_list<std::string_view> ids,
                    const ReportPart& part) {
  Runs runs{{when}};
  for (const std::string_view id : ids) {
    const auto& shown = part.assessment.cautions;
    if (std::none_of(shown.begin(), shown.end(), [&](const Caution* c) { return c->id == id; }))
      continue;
    if (runs.size() > 1) runs.push_back({"; "});
    runs.push_back({std::string(caution(id).hazard), Tone::strong});
  }
  runs.push_back({"."});
  return runs.size() > 2 ? runs : Runs{};
}

/// Those that concern a reader most, by their names; the list in full is one link away.
std::vector<Runs> short_cautions(const ReportPart& part) {
  std::vector<Runs> lines{
      {{"Not a certification test.", Tone::strong},
       {fmt::format(" One panel, {} at home at nominal figures: it says nothing "
                    "about other panels of the model.",
                    part.protocol.series.empty() ? "stressed" : "struck")}}};
  for (Runs& line : std::vector<Runs>{
           named_cautions("To whoever has such a panel: ", {"reuse_tested_panel", "hot_spot"},
                          part),
           named_cautions("To whoever would do this too: ",
                          {"heart_blow", "body_hit_any", "eye_protection_low"}, part)}) {
    if (!line.empty()) lines.push_back(std::move(line));
  }
  const auto all = static_cast<int>(part.assessment.cautions.size());
  lines.push_back({{fmt::format("All {} in full, with what to do", counted(all, "caution")),
                    Tone::plain, "#cautions"}});
  return lines;
}

/// "2.5 %", or the share of it that each of several looks at the result was judged at.
std::string risk_text(const ReportPart& part) {
  std::string whole = plain_number(risk_of(part.protocol.decide).si() * 100.0, 3) + " %";
  const PowerResult* p = first_estimated(part.assessment);
  if (p == nullptr || p->looks_counted == 1) return whole;
  return fmt::format("{} % ({} shared by {} looks at the result)",
                     plain_number(p->estimate.alpha * 100.0, 3), whole, p->looks_counted);
}

/// "damage is a new major defect or a loss beyond 5 %, ...": in one line.
std::string short_rule(const ReportPart& part) {
  const Test& test = part.test;
  const DecisionRule& rule = test.protocol.decide;
  return fmt::format(
      "damage is a new major visual defect{}; {}",
      !rule.judges_power ? "; power is not judged"
      : rule.simple      ? fmt::format(" or a loss estimated beyond {}", limit_text(rule.limit))
                         : fmt::format(" or a loss beyond {}, each wrong statement at a risk of {}",
                                       limit_text(rule.limit), risk_text(part)),
      plan_was_kept(test) ? "set before the test" : "that it was set before the test is not shown");
}

Fact rule_fact(const ReportPart& part) {
  Fact fact{"decided by", {plain(short_rule(part))}};
  const PowerResult* p = first_estimated(part.assessment);
  const PowerNote* extended = p != nullptr ? find_note(*p, PowerRemark::extended) : nullptr;
  if (extended != nullptr) fact.lines.push_back({{extension_text(*extended), Tone::open}});
  return fact;
}

std::vector<Fact> opening_facts(const ReportPart& part) {
  std::vector<Fact> facts{loss_fact(part)};
  if (!part.protocol.series.empty()) {
    facts.push_back(throws_fact(part));
    facts.push_back(hail_fact(part));
  }
  if (!part.assessment.stresses.empty()) facts.push_back(stresses_fact(part));
  facts.push_back(who_fact(part));
  facts.push_back(rule_fact(part));
  return facts;
}

}  // namespace

std::string append_opening(Document& out, const ReportPart& part) {
  Opening opening;
  opening.sentence = {{headline(part.test, part.assessment), Tone::strong}};
  auto picture = hit_map(part.judged, part.suffix);
  if (!picture) picture = loss_picture(part.judged, part.suffix);
  if (picture) opening.picture = std::move(*picture);
  opening.facts = opening_facts(part);
  opening.cautions = short_cautions(part);
  std::string id = opening.picture.id;
  out.blocks.push_back(std::move(opening));
  return id;
}

std::string append_opening_of_several(Document& out, const std::vector<ReportPart>& parts,
                                      const std::vector<Figure>& pictures) {
  Opening opening;
  opening.sentence = {{fmt::format("{}, each judged by a test of its own; their order ranks "
                                   "nothing.",
                                   counted(static_cast<int>(parts.size()), "panel")),
                       Tone::strong}};
  for (const ReportPart& part : parts) {
    Fact fact{part.record.title, {{{headline(part.test, part.assessment), Tone::strong}}}};
    for (Runs& line : loss_heads(part))
      fact.lines.push_back(std::move(line));
    if (!part.protocol.series.empty()) fact.lines.push_back(throws_fact(part).lines.front());
    const std::vector<Runs> rule = rule_fact(part).lines;
    fact.lines.insert(fact.lines.end(), rule.begin() + 1, rule.end());
    fact.lines.push_back({{"more of " + part.record.title, Tone::plain, "#record" + part.suffix}});
    opening.facts.push_back(std::move(fact));
  }
  if (!pictures.empty()) opening.picture = pictures.front();
  opening.cautions = {{{"Not a certification test.", Tone::strong},
                       {" These panels alone, struck at home at nominal figures. Where intervals "
                        "overlap, the panels are not shown to differ."}},
                      {{std::string(shortest_caution())}},
                      {{"All cautions in full", Tone::plain, "#cautions"}}};
  std::string id = opening.picture.id;
  out.blocks.push_back(std::move(opening));
  return id;
}

}  // namespace hailwright
