#include "report/sentences.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "hailwright/core/contract.hpp"
#include "hailwright/core/quantity_text.hpp"
#include "hailwright/report/compose.hpp"
#include "report/check_sentences.hpp"
#include "report/judgement_looks.hpp"
#include "report/shown_loss.hpp"
#include "report/stress_sentences.hpp"
#include "report/words.hpp"

namespace hailwright {

std::string limit_text(Ratio limit) {
  return plain_number(limit.si() * 100.0, 6) + " %";
}

std::string probability_text(double probability) {
  if (probability < 0.001) return "less than 0.1 %";
  if (probability > 0.999) return "more than 99.9 %";
  // Two methods of the interval differ in the third digit.
  const bool two_digits = probability >= 0.01 && probability <= 0.99;
  return fixed(probability * 100.0, two_digits ? 0 : 1) + " %";
}

std::string percent_text(Ratio ratio, int decimals) {
  if (ratio > most_percent_shown) return "above 1000 %";
  if (ratio < -most_percent_shown) return "below -1000 %";
  return fixed(ratio.si() * 100.0, decimals) + " %";
}

std::string chance_text(Ratio chance) {
  const double tenths = chance.si() * 10.0;
  if (std::abs(tenths - std::round(tenths)) < 1e-9) return fixed(tenths, 0) + " times in 10";
  return plain_number(chance.si() * 100.0, 3) + " times in 100";
}

std::string level_text(double alpha) {
  return plain_number((1.0 - 2.0 * alpha) * 100.0, 3) + " %";
}

std::string target_text(const Target& target) {
  const Grade* g = target.grade;
  if (g == nullptr) return target.label;
  const auto any = [g](FieldStatus status) {
    return g->diameter_status == status || g->mass_status == status || g->speed_status == status;
  };
  std::string mark;
  if (any(FieldStatus::from_memory)) mark = "figures from memory";
  if (any(FieldStatus::derived)) mark += (mark.empty() ? "" : ", ") + std::string("partly derived");
  return mark.empty() ? target.label : target.label + " [" + mark + "]";
}

std::string_view word_text(Word word) {
  switch (word) {
  case Word::withstood:
    return "withstood";
  case Word::damaged:
    return "damaged";
  case Word::undecided:
    return "undecided";
  case Word::not_reached:
    return "not reached";
  }
  fail_contract("unknown word");
}

Tone word_tone(Word word) {
  switch (word) {
  case Word::withstood:
    return Tone::good;
  case Word::damaged:
    return Tone::bad;
  case Word::undecided:
  case Word::not_reached:
    return Tone::open;
  }
  fail_contract("unknown word");
}

namespace {

/// What must be said in one breath with "withstood".
std::string withstood_rider(const Assessment& a, const SeriesVerdict& v) {
  if (!v.power_claimed) return " as to visible damage; power not judged";
  const PowerResult& p = a.power[*v.power];
  if (!p.is_real()) return "";
  return ", with a measured loss of power of " + interval_text(p);
}

/// Which hail a damage belongs to: one series, or several that no look and no reading separates.
std::string damaged_headline(const Test& test, const Assessment& a, const SeriesVerdict& v) {
  const bool by_power = std::any_of(v.reasons.begin(), v.reasons.end(), [](const SeriesReason& r) {
    return r.reason == Reason::power_beyond;
  });
  const Coverage covers = by_power ? v.power_covers : v.look_covers;
  std::vector<std::string> labels;
  for (std::size_t i = covers.first; i <= covers.last; ++i) {
    labels.push_back(target_text(test.protocol.series[i].target));
  }
  if (covers.joint()) {
    return fmt::format("This panel was damaged by the series aimed at {} together.",
                       enumerate(labels));
  }
  return fmt::format(
      "This panel was damaged, {} {}.",
      a.verdicts[v.series].damage_by == DamageBy::at_grade ? "at" : "in the series aimed at",
      labels.front());
}

}  // namespace

namespace {

/// What a later stage shows: it adds to the words and never replaces them (MEASUREMENT M11).
std::string later_headline(const Test& test, const PowerResult& p) {
  return fmt::format("{}, readings show a loss of power of {}, {}.",
                     capitalised(told_stage(p, test)), interval_text(p),
                     p.is_beyond()   ? "beyond the limit of " + limit_text(p.limit)
                     : p.is_within() ? "within the limit of " + limit_text(p.limit)
                                     : "perhaps beyond the limit of " + limit_text(p.limit));
}

/// What must not be left unsaid beside the words of the series.
void add_beside(std::vector<std::string>& parts, const Test& test, const Assessment& a) {
  std::vector<std::string> old;
  for (const Finding* f : a.defects_from_start)
    old.push_back(fmt::format("{} ({})", f->kind->word, f->where));
  if (!old.empty()) {
    parts.push_back(fmt::format(
        "There before {} already: {}.",
        test.protocol.series.empty() ? "anything was done" : "the first shot", enumerate(old)));
  }
  for (const PowerResult& p : a.later_power) {
    if (p.is_real()) parts.push_back(later_headline(test, p));
  }
}

}  // namespace

std::string headline(const Test& test, const Assessment& a) {
  const auto target = [&](std::size_t verdict) {
    return target_text(test.protocol.series[a.verdicts[verdict].series].target);
  };
  std::vector<std::string> parts;
  if (a.hardest_withstood) {
    parts.push_back(fmt::format("This panel withstood hail struck at the nominal {} figures{}.",
                                target(*a.hardest_withstood),
                                withstood_rider(a, a.verdicts[*a.hardest_withstood])));
  }
  if (a.mildest_damaged) {
    parts.push_back(damaged_headline(test, a, a.verdicts[*a.mildest_damaged]));
  }
  std::vector<std::string> undecided;
  std::vector<std::string> not_reached;
  for (std::size_t i = 0; i < a.verdicts.size(); ++i) {
    if (a.verdicts[i].word == Word::undecided) undecided.push_back(target(i));
    if (a.verdicts[i].word == Word::not_reached) not_reached.push_back(target(i));
  }
  if (!undecided.empty()) {
    parts.push_back(fmt::format("This panel cannot be judged at {}.", enumerate(undecided)));
  }
  if (!not_reached.empty()) {
    parts.push_back(fmt::format("{} {} not reached.", enumerate(not_reached),
                                not_reached.size() > 1 ? "were" : "was"));
  }
  const std::vector<std::string> stresses = stress_headlines(test, a);
  parts.insert(parts.end(), stresses.begin(), stresses.end());
  add_beside(parts, test, a);
  return fmt::format("{}", fmt::join(parts, " "));
}

std::string coverage_text(const Coverage& c, const Test& test) {
  std::vector<std::string> names;
  for (std::size_t i = c.first; i <= c.last; ++i)
    names.push_back(test.protocol.series[i].name);
  return c.joint() ? enumerate(names) + " together" : names.front();
}

std::string stage_text(StageId stage, const Test& test) {
  switch (stage.kind) {
  case StageKind::before:
    return "before";
  case StageKind::after:
    return "after";
  case StageKind::later:
    return "later";
  case StageKind::baseline:
    return "baseline";
  case StageKind::after_series:
    return "after " + test.protocol.series[stage.series].name;
  case StageKind::after_stress:
    return "after " + test.protocol.stresses[stage.series].name;
  }
  fail_contract("unknown stage");
}

std::string days_after_text(const PowerResult& p) {
  const int last = p.days_after_shots.value();
  const int first = p.first_day_after_shots.value_or(last);
  if (last <= 0) return "on the day of the shots";
  return fmt::format("{}{} after the shots", first < last ? fmt::format("{} to ", first) : "",
                     counted(last, "day"));
}

std::string told_stage(const PowerResult& p, const Test& test) {
  const std::string stage = stage_text(p.stage, test);
  const bool dated = p.stage.kind == StageKind::later && p.days_after_shots;
  return dated ? stage + ", " + days_after_text(p) : stage;
}

std::string panel_text(const Reading& r, const Record& record) {
  switch (r.role) {
  case Role::struck:
    return "panel";
  case Role::control:
    return "control";
  case Role::sibling:
    return "unit " + record.siblings.at(r.unit).label;
  }
  fail_contract("unknown role");
}

std::string delivered_sentence(const SeriesDelivery& d, const SeriesVerdict& v,
                               const Assessment& a) {
  if (d.places_hit == 0) {
    return d.hits == 0 ? "nothing struck the panel"
                       : fmt::format("no place was hit; {} landed elsewhere on the panel",
                                     counted(d.hits, "ball"));
  }
  std::string energy = "with an energy that is not known";
  if (d.at_least) {
    energy = fmt::format(
        "{}with at least {} each (95 %)",
        d.places_with_energy < d.places_hit ? fmt::format("{} of them ", d.places_with_energy) : "",
        in_unit(d.at_least->si(), "J", 2));
  }
  const PowerResult* p = v.power ? &a.power[*v.power] : nullptr;
  const bool power_clean = !v.power_claimed || (p != nullptr && p->is_within() && !p->is_real());
  const char* shown = !v.clean_looks ? ""
                      : power_clean  ? ": no damage shown"
                                     : ": no visible damage shown";
  return fmt::format("struck at {} of {} {}{}", d.places_hit,
                     counted(static_cast<int>(d.places.size()), "place"), energy, shown);
}

std::string damage_sentence(DamageBy by) {
  switch (by) {
  case DamageBy::at_grade:
    return "no hit up to it could have been harder than the grade: damaged at the grade";
  case DamageBy::perhaps_harder:
    return "perhaps by harder hits than the grade; says nothing about the grade itself";
  case DamageBy::below_grade:
    return "every hit was below the grade: damaged already below the grade";
  }
  fail_contract("unknown kind of damage");
}

std::string doubt_text(StrengthDoubt doubt) {
  switch (doubt) {
  case StrengthDoubt::none:
    return "";
  case StrengthDoubt::mass_unknown:
    return "mass not known";
  case StrengthDoubt::mass_from_diameter:
    return "mass only from the diameter";
  case StrengthDoubt::mass_low:
    return "mass not shown to be high enough";
  case StrengthDoubt::speed_unknown:
    return "speed not known";
  case StrengthDoubt::few_trials:
    return "fewer than 5 trial shots";
  case StrengthDoubt::speed_nominal:
    return "speed by the launcher's setting, not measured";
  case StrengthDoubt::speed_low:
    return "speed not shown to be high enough";
  case StrengthDoubt::diameter_unknown:
    return "diameter not measured";
  case StrengthDoubt::diameter_off:
    return "diameter outside its tolerance";
  }
  fail_contract("unknown doubt");
}

namespace {

std::string beyond_sentence(const SeriesVerdict& v, const Test& test, const Assessment& a) {
  const PowerResult& p = a.power[*v.power];
  return fmt::format(
      "loss of power {}, beyond the limit of {}{}{}", interval_text(p), limit_text(p.limit),
      v.power_covers.joint() ? "; the readings come after " + coverage_text(v.power_covers, test) +
                                   ", so it belongs to them together"
                             : "",
      simple_rider(p));
}

std::string within_sentence(const SeriesVerdict& v, const Test& test, const Assessment& a) {
  const PowerResult& p = a.power[*v.power];
  return fmt::format("{}{}; a loss of {} would have shown {}{}", within_claim(p),
                     v.power_covers.joint() ? " for " + coverage_text(v.power_covers, test) : "",
                     percent_text(p.smallest_shown), chance_text(p.see_chance), simple_rider(p));
}

/// "; seen on 2026-07-01, 17 days after the shots": empty for what was seen on their day.
std::string when_seen(const SeriesReason& r, const Test& test) {
  const std::string day = r.look ? look_day(test.record.looks.at(*r.look), test.record) : "";
  return day.empty() ? "" : "; seen on " + day;
}

/// When the look and the readings that answer for a series were made.
std::string when_measured(const SeriesVerdict& v, const Test& test, const Assessment& a) {
  const bool dated = v.power && a.power[*v.power].estimated() && a.power[*v.power].days_after_shots;
  const std::string day = v.look ? look_day(test.record.looks.at(*v.look), test.record) : "";
  std::string text = !day.empty() ? "looked at on " + day
                     : dated      ? ""
                                  : "looked at on the day of the shots unless said otherwise";
  if (dated)
    text += (text.empty() ? "" : "; ") + ("power measured " + days_after_text(a.power[*v.power]));
  return text + "; cracks can open later";
}

/// What hail and another stress share, since nothing separates them.
std::string with_stress_sentence(const SeriesReason& r, const SeriesVerdict& v, const Test& test) {
  std::vector<std::string> names;
  for (const std::size_t done : r.subject.empty() ? v.power_stresses : v.look_stresses)
    names.push_back(test.protocol.stresses[test.record.stresses[done].stress].name);
  return fmt::format("{}; {} came between too, so it is not the hail's alone",
                     r.subject.empty() ? "the power dropped beyond the limit" : r.subject,
                     enumerate(names));
}

}  // namespace

std::string reason_sentence(const SeriesReason& r, const SeriesVerdict& v, const Test& test,
                            const Assessment& a) {
  switch (r.reason) {
  case Reason::new_major_defect:
    return fmt::format("new major defect: {}{}{}", r.subject, when_seen(r, test),
                       v.look_covers.joint()
                           ? "; looked at after " + coverage_text(v.look_covers, test) +
                                 ", so it belongs to them together"
                           : "");
  case Reason::power_beyond:
    return beyond_sentence(v, test, a);
  case Reason::places_missing:
    return fmt::format("not struck at least at the grade: {} {}",
                       r.subject.find(',') == std::string::npos ? "place" : "places", r.subject);
  case Reason::no_look_before:
    return "nobody looked before the first shot, so nothing seen can be called new";
  case Reason::no_look_after:
    return "nobody looked after the shots";
  case Reason::cell_share_not_stated:
    return fmt::format("{}{}: the share of the cell is not stated, so it cannot be told whether "
                       "it is major",
                       r.subject, when_seen(r, test));
  case Reason::power_missing:
    return "the protocol claims power, but there are no readings after the shots";
  case Reason::power_obstacle:
    return obstacle_sentence(a.power[*v.power].obstacle, a.power[*v.power].obstacle_subject);
  case Reason::power_not_deciding:
    return no_answer_sentence(a.power[*v.power]);
  case Reason::power_not_valid:
    return "the power result is not valid: " + not_valid_sentence(a.power[*v.power]);
  case Reason::power_undecided:
    return open_limit_sentence(a.power[*v.power]);
  case Reason::damaged_before:
    return r.subject.empty()
               ? "an earlier series had damaged the panel already"
               : fmt::format("{}, done before the hail, had damaged the panel already", r.subject);
  case Reason::nothing_struck:
    return "the power dropped beyond the limit, but nothing struck the panel: something else "
           "changed";
  case Reason::defect_from_start:
    return fmt::format("there before the first shot already, so not new: {}", r.subject);
  case Reason::extended:
    return note_sentence(*find_note(a.power[*v.power], PowerRemark::extended));
  case Reason::with_a_stress:
    return with_stress_sentence(r, v, test);
  case Reason::all_places_struck: {
    const SeriesDelivery& d = a.delivery[v.series];
    return fmt::format("all {} struck at least at the grade{}",
                       counted(static_cast<int>(d.places.size()), "place"),
                       d.at_least ? fmt::format(", with at least {} each (95 %)",
                                                in_unit(d.at_least->si(), "J", 2))
                                  : "");
  }
  case Reason::looks_clean:
    return fmt::format(
        "no new major defect seen{}; {}",
        v.look_covers.joint() ? " in the look after " + coverage_text(v.look_covers, test) : "",
        when_measured(v, test, a));
  case Reason::power_within:
    return within_sentence(v, test, a);
  }
  fail_contract("unknown reason");
}

std::string evidence_sentence(const HitEvidence& e) {
  return fmt::format(
      "{} struck once at least at the grade, {} with visible damage{}. If hits at such places on "
      "this panel were independent, the chance of visible damage per hit is below {} (95 %). One "
      "panel is one panel",
      counted(e.places, "place"), e.with_damage > 0 ? std::to_string(e.with_damage) : "none",
      e.with_damage > 0 ? "; later hits do not count" : "",
      percent_text(Ratio::from_si(e.upper), 0));
}

std::string place_text(const SourceSet& sources, const SourceSpan& where) {
  if (where.file == 0 || where.line == 0) return {};
  return fmt::format(" ({}, line {})", sources.name(where.file), where.line);
}

std::string_view closing_sentence(const Protocol& protocol) {
  if (!protocol.series.empty()) return closing_sentence();
  return "A home test of one panel, stressed at nominal figures. It is not a certification test, "
         "it "
         "says nothing about other panels of the model, and it does not replace local law, "
         "licensed electricians or an accredited laboratory.";
}

std::string_view closing_sentence(const std::vector<Judged>& judged) {
  for (const Judged& j : judged) {
    if (!j.test->protocol.series.empty()) return closing_sentence();
  }
  return judged.empty() ? closing_sentence() : closing_sentence(judged.front().test->protocol);
}

std::string_view closing_sentence() {
  return "A home test of one panel, struck at nominal figures. It is not a certification test, it "
         "says nothing about other panels of the model, and it does not replace local law, "
         "licensed electricians or an accredited laboratory.";
}

}  // namespace hailwright
