// What readers ask. Every answer is made from the assessment; the sentences that may be said of a
// result stand in sentences.cpp and its sisters.
#include <fmt/format.h>

#include <algorithm>

#include "hailwright/core/quantity_text.hpp"
#include "report/check_sentences.hpp"
#include "report/judged_stages.hpp"
#include "report/judgement_delivery.hpp"
#include "report/judgement_done.hpp"
#include "report/judgement_looks.hpp"
#include "report/judgement_power.hpp"
#include "report/report_sections.hpp"
#include "report/sentences.hpp"
#include "report/shown_loss.hpp"
#include "report/stress_sentences.hpp"
#include "report/words.hpp"

namespace hailwright {

namespace {

using Lines = std::vector<std::string>;

void ask(Document& out, const std::string& question, const Lines& answer) {
  if (answer.empty()) return;
  out.blocks.push_back(Heading{3, plain(question)});
  if (answer.size() == 1) {
    out.blocks.push_back(Paragraph{plain(answer.front())});
    return;
  }
  Bullets list;
  for (const std::string& line : answer)
    list.items.push_back(plain(line));
  out.blocks.push_back(std::move(list));
}

/// "After small: ", where several stages answer.
std::string stage_opening(const PowerResult& p, const ReportPart& part) {
  const bool alone = all_stages(part.assessment).size() == 1 && p.stage.kind != StageKind::later;
  return alone ? "" : capitalised(told_stage(p, part.test)) + ": ";
}

/// A sentence of its own, or one after the stage that it is about.
std::string answer(const PowerResult& p, const ReportPart& part, const std::string& text) {
  const std::string prefix = stage_opening(p, part);
  return (prefix.empty() ? capitalised(text) : prefix + text) + ".";
}

/// Why no answer is drawn from an estimated loss.
std::string not_usable(const PowerResult& p) {
  for (const PowerNote& note : p.notes) {
    const RemarkWeight weight = weight_of(note.remark);
    if (weight == RemarkWeight::not_valid || weight == RemarkWeight::no_verdict)
      return note_sentence(note);
  }
  return "the result does not decide";
}

std::string still_gives(const PowerResult& p) {
  if (!p.estimated()) return "not compared: " + obstacle_sentence(p.obstacle, p.obstacle_subject);
  if (!p.valid) return "the result is not valid: " + not_usable(p);
  if (!p.decides) return "no answer is drawn: " + not_usable(p);
  const std::string watts = p.before ? ", in full sun " + watts_text(p) : "";
  if (p.is_real()) {
    return fmt::format("less than {}. A loss of {} is shown{}",
                       p.model->siblings ? "unstruck ones of its model" : "before",
                       interval_text(p), watts);
  }
  return fmt::format("a drop is {}. The estimate is a loss of {}{}", real_answer(p),
                     interval_text(p), watts);
}

Lines about_power(const ReportPart& part) {
  if (!part.protocol.decide.judges_power) {
    return {part.record.readings.empty()
                ? "Not judged: the protocol judges by looks alone."
                : "Not judged: the protocol judges by looks alone. The readings of the record are "
                  "listed and not compared."};
  }
  Lines lines;
  if (part.assessment.power.empty() && part.assessment.stress_power.empty()) {
    lines.emplace_back(part.protocol.series.empty()
                           ? "Not known: there are no readings after what was done."
                           : "Not known: there are no readings after the shots.");
  }
  for (const PowerResult* p : all_stages(part.assessment))
    lines.push_back(answer(*p, part, still_gives(*p)));
  return lines;
}

Lines about_hail(const ReportPart& part) {
  Lines lines;
  for (const SeriesDelivery& d : part.assessment.delivery) {
    const SeriesPlan& plan = part.protocol.series[d.series];
    const bool known = d.at_least && d.at_least->si() > 0.0;
    lines.push_back(fmt::format("{}: ice balls of {}; {}{}.", plan.name,
                                in_unit(plan.target.diameter, "mm", 0), struck_text(d),
                                known ? "; that is " + hailstone_text(*d.at_least) : ""));
  }
  if (!anything_struck(part.assessment)) return lines;
  lines.emplace_back(
      "Hail of a storm has many sizes, is driven by wind, and strikes in hundreds of "
      "places. This is what single balls carried.");
  return lines;
}

Lines about_smaller_loss(const ReportPart& part) {
  Lines lines;
  for (const PowerResult* stage : all_stages(part.assessment)) {
    const PowerResult& p = *stage;
    if (!p.usable()) continue;
    lines.push_back(stage_opening(p, part) +
                    fmt::format("Yes. This test would have shown a loss of {} {}; a smaller one "
                                "less often. A loss estimated at {} or less is not called a drop.",
                                percent_text(p.smallest_shown), chance_text(p.see_chance),
                                percent_text(p.estimate.real_above())));
  }
  if (lines.empty()) {
    lines.emplace_back("Yes, any loss: no comparison of power that counts was made.");
  }
  lines.emplace_back(
      "Cracks that cannot be seen from outside, weak insulation and what opens later "
      "were not looked for.");
  return lines;
}

/// The earliest major defect, by the order of the looks.
const NewFinding* first_defect(const Assessment& a) {
  const NewFinding* first = nullptr;
  for (const NewFinding& n : a.new_findings) {
    if (n.major && (first == nullptr || n.look < first->look)) first = &n;
  }
  return first;
}

/// Drops of the power that a stage shows, later ones too, where nothing decided on damage.
std::string power_so_far(const ReportPart& part) {
  Lines drops;
  bool compared = false;
  const std::vector<const PowerResult*> stages = all_stages(part.assessment);
  for (const PowerResult* p : stages) {
    compared = compared || p->usable();
    if (!p->is_real()) continue;
    drops.push_back(interval_text(*p) + (stages.size() > 1 ? " " + told_stage(*p, part.test) : ""));
  }
  if (!drops.empty()) return "; the power dropped, with a loss of " + enumerate(drops);
  return compared ? ", and no drop of the power was shown" : "";
}

/// What was broken before, and what later readings show beyond the limit.
Lines beside_the_verdicts(const ReportPart& part) {
  Lines lines;
  for (const Finding* f : part.assessment.defects_from_start)
    lines.push_back(
        fmt::format("There before {} already: {} ({}).",
                    part.protocol.series.empty() ? "anything was done" : "the first shot",
                    f->kind->word, f->where));
  for (const PowerResult& p : part.assessment.later_power) {
    if (!p.is_beyond()) continue;
    lines.push_back(fmt::format("{}, the power: a loss of {}, beyond the limit of {}. The verdict "
                                "is of what was measured before.",
                                capitalised(told_stage(p, part.test)), interval_text(p),
                                limit_text(p.limit)));
  }
  return lines;
}

Lines about_failing(const ReportPart& part) {
  const Assessment& a = part.assessment;
  Lines lines;
  if (const NewFinding* defect = first_defect(a)) {
    const Look& look = part.record.looks[defect->look];
    const std::string day = look_day(look, part.record);
    lines.push_back(fmt::format("The first new major defect that was seen: {} ({}), {}{}.",
                                defect->finding->kind->word, defect->finding->where,
                                look_moment(look, part.test), day.empty() ? "" : ", on " + day));
  }
  if (a.mildest_damaged) {
    const SeriesVerdict& v = a.verdicts[*a.mildest_damaged];
    for (const SeriesReason& r : v.reasons) {
      if (r.reason == Reason::power_beyond)
        lines.push_back("The power: " + reason_sentence(r, v, part.test, a) + ".");
    }
  }
  for (const StressVerdict& v : a.stresses) {
    for (const StressReason& r : v.reasons) {
      if (r.because == StressBecause::power_beyond)
        lines.push_back("The power: " + stress_reason_sentence(r, v, part.test, a) + ".");
    }
  }
  if (lines.empty()) {
    lines.push_back(
        fmt::format("Nothing that the verdict calls damage: {}{}. What it cannot show stays open.",
                    part.record.looks.empty() ? "nobody looked" : "no new major defect was seen",
                    power_so_far(part)));
  }
  const Lines beside = beside_the_verdicts(part);
  lines.insert(lines.end(), beside.begin(), beside.end());
  return lines;
}

bool damaged(const Assessment& a) {
  return a.mildest_damaged ||
         std::any_of(a.stresses.begin(), a.stresses.end(),
                     [](const StressVerdict& v) { return v.word == Word::damaged; });
}

/// Never a yes: what can be said are the cautions.
Lines about_using(const ReportPart& part) {
  Lines lines{
      damaged(part.assessment)
          ? "It was damaged in this test. What is left of it may be worse than it shows: the test "
            "does not look inside the cells and does not test insulation."
          : "This test cannot say so, whatever its verdict: it does not look inside the cells and "
            "does not test insulation."};
  for (const Caution* c : part.assessment.cautions) {
    if (c->id == "hot_spot" || c->id == "reuse_tested_panel" || c->id == "pv_energised")
      lines.push_back(fmt::format("{}: {}", c->hazard, c->text));
  }
  return lines;
}

const char* what_was_done(const ReportPart& part) {
  if (part.protocol.series.empty()) return "tested";
  return anything_struck(part.assessment) ? "struck" : "tested and not struck";
}

Lines about_the_model(const ReportPart& part) {
  Lines lines{fmt::format("No. {} was {}, and one panel is not the model: units differ, in what "
                          "they are made of too. The results are of this panel alone.",
                          part.record.serial.empty() ? std::string("One unit")
                                                     : "One unit, " + part.record.serial + ",",
                          what_was_done(part))};
  for (const HitEvidence& e : part.assessment.evidence) {
    lines.push_back(part.protocol.series[e.series].name + ": " + evidence_sentence(e) + ".");
  }
  return lines;
}

Lines about_money(const ReportPart& part) {
  const Disclosure said = part.record.disclosure.value_or(Disclosure{});
  return {
      fmt::format("The panel was bought by: {}. The test was asked for by: {}. Interests of the "
                  "reviewer: {}. The panel goes: {}.",
                  bought_by_text(part.record), or_unstated(part.record.write_up.asked_by),
                  or_unstated(said.interests), or_unstated(said.panel_goes))};
}

std::string risk_line(const SeriesVerdict& v, const ReportPart& part) {
  if (!v.power_claimed || !v.power) return "Power is no part of this verdict.";
  const PowerResult& p = part.assessment.power[*v.power];
  if (!p.usable()) return "Power does not decide here: see what would settle it.";
  if (p.simple) return "On the limit: " + simple_sentence() + ".";
  return fmt::format("On the limit of {}: of 100 tests whose loss is just at it, at most {} would "
                     "be called within "
                     "it and as many beyond it, as far as the stated uncertainties hold. Here the "
                     "probability that "
                     "the loss is above it comes out as {}.",
                     limit_text(p.limit), plain_number(p.estimate.alpha * 100.0, 3),
                     probability_text(p.estimate.probability_above(p.limit)));
}

/// How sure the hail, the power and the looks make it.
Lines about_withstood(const SeriesVerdict& v, const ReportPart& part) {
  Lines lines;
  const SeriesDelivery& d = part.assessment.delivery[v.series];
  if (d.joint_probability) {
    lines.push_back(fmt::format("On the hail: all places of {} were truly struck at least at the "
                                "grade: {} sure.",
                                part.protocol.series[v.series].name,
                                sure_text(*d.joint_probability)));
  }
  lines.push_back(risk_line(v, part));
  lines.emplace_back("On the looks: they find what an eye finds; how much that misses was not "
                     "measured.");
  for (const PowerResult& p : part.assessment.later_power) {
    if (!p.estimated()) continue;
    lines.push_back(fmt::format("{}, which is no part of it: {}; beyond the limit of {}? {}.",
                                capitalised(told_stage(p, part.test)), loss_line(p),
                                limit_text(p.limit), beyond_answer(p)));
  }
  return lines;
}

Lines about_damaged(const SeriesVerdict& v, const ReportPart& part) {
  Lines lines;
  for (const SeriesReason& r : v.reasons) {
    if (r.reason == Reason::new_major_defect)
      lines.push_back("It was seen: " + reason_sentence(r, v, part.test, part.assessment) + ".");
    if (r.reason == Reason::power_beyond) lines.push_back(risk_line(v, part));
  }
  if (v.damage_by) lines.push_back("By which hail: " + damage_sentence(*v.damage_by) + ".");
  return lines;
}

bool open(const SeriesVerdict& v) {
  return v.word == Word::undecided || v.word == Word::not_reached;
}

/// What would close the gap, where the reason does not say so itself; empty where it does.
const char* remedy(Reason reason, bool struck) {
  switch (reason) {
  case Reason::places_missing:
    return struck ? " Hits there that are shown to be at least at the grade would; on this panel, "
                    "the earlier hits may have weakened it."
                  : " Hits there that are shown to be at least at the grade would.";
  case Reason::damaged_before:
    return " Nothing can, on this panel: what was done to it before cannot be taken out. A fresh "
           "panel, struck with this series alone, would be a test of its own.";
  case Reason::no_look_before:
    return " Nothing can, for this panel: what was there before the first shot is past.";
  case Reason::no_look_after:
    return " A look at the panel now, with its date, would.";
  case Reason::cell_share_not_stated:
    return " Its share, read off the panel or a photo, would.";
  case Reason::power_missing:
    return " Readings after the shots would, as the protocol plans them.";
  case Reason::power_not_valid:
    return " Only a comparison without that change would.";
  default:
    return "";
  }
}

/// Why series are open, those of one reason together.
Lines open_reasons(const ReportPart& part) {
  std::vector<std::pair<std::string, Lines>> by_reason;
  for (const SeriesVerdict& v : part.assessment.verdicts) {
    if (!open(v) || v.reasons.empty()) continue;
    const SeriesReason& first = v.reasons.front();
    const std::string why = fmt::format("{}: {}.{}", word_text(v.word),
                                        reason_sentence(first, v, part.test, part.assessment),
                                        remedy(first.reason, anything_struck(part.assessment)));
    auto same = std::find_if(by_reason.begin(), by_reason.end(),
                             [&](const auto& known) { return known.first == why; });
    if (same == by_reason.end()) same = by_reason.insert(by_reason.end(), {why, {}});
    same->second.push_back(part.protocol.series[v.series].name);
  }
  Lines lines;
  for (const auto& [why, series] : by_reason)
    lines.push_back(
        fmt::format("{} {} {}", enumerate(series), series.size() > 1 ? "are" : "is", why));
  return lines;
}

Lines open_stresses(const ReportPart& part) {
  Lines lines;
  for (const StressVerdict& v : part.assessment.stresses) {
    if ((v.word != Word::undecided && v.word != Word::not_reached) || v.reasons.empty()) continue;
    const StressDone& done = part.record.stresses[v.done];
    lines.push_back(
        fmt::format("{} is {}: {}.", part.protocol.stresses[done.stress].name, word_text(v.word),
                    stress_reason_sentence(v.reasons.front(), v, part.test, part.assessment)));
  }
  return lines;
}

/// What is missing, and what further set-ups would bring.
Lines about_settling(const ReportPart& part) {
  Lines lines = open_reasons(part);
  for (std::string& line : open_stresses(part))
    lines.push_back(std::move(line));
  if (lines.empty()) return lines;
  for (const auto* results : {&part.assessment.power, &part.assessment.stress_power}) {
    for (const PowerResult& p : *results) {
      if (p.settling && p.usable())
        lines.push_back(answer(p, part, "on the power, " + settling_sentence(p, *p.settling)));
    }
  }
  return lines;
}

}  // namespace

void append_questions(Document& out, const ReportPart& part) {
  part.section(out, "Questions readers ask", "questions");
  ask(out, "Does it still give its power?", about_power(part));
  if (!part.protocol.series.empty()) ask(out, "How big a hail was that?", about_hail(part));
  ask(out, "Could a smaller loss have been missed?", about_smaller_loss(part));
  ask(out, "What failed first?", about_failing(part));
  ask(out, "May it go on being used?", about_using(part));
  ask(out, "Does this hold for other panels of the model?", about_the_model(part));
  ask(out, "Who paid?", about_money(part));
  const Assessment& a = part.assessment;
  if (a.hardest_withstood) {
    ask(out, "How sure is \"withstood\"?", about_withstood(a.verdicts[*a.hardest_withstood], part));
  }
  if (a.mildest_damaged) {
    ask(out, "How sure is \"damaged\"?", about_damaged(a.verdicts[*a.mildest_damaged], part));
  }
  ask(out, "What would settle it?", about_settling(part));
}

}  // namespace hailwright
