#include "report/stress_sentences.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "hailwright/core/contract.hpp"
#include "hailwright/core/quantity_text.hpp"
#include "report/judgement_looks.hpp"
#include "report/sentences.hpp"
#include "report/shown_loss.hpp"
#include "report/words.hpp"

namespace hailwright {

namespace {

/// The unit in which the example of a key is written: "Pa" of "2400 Pa".
std::string_view unit_of(const StressKey& key) {
  const std::size_t blank = key.example.find(' ');
  return blank == std::string_view::npos ? "" : key.example.substr(blank + 1);
}

/// With as few decimals as give the amount back.
std::string amount_text(const StressKey& key, double si) {
  constexpr int most_decimals = 6;
  constexpr double rounding = 1e-9;
  std::string text;
  for (int decimals = 0; decimals <= most_decimals; ++decimals) {
    text = in_unit(si, key.measure, unit_of(key), decimals);
    const TextResult<Amount> back = read_amount(text, key.measure);
    if (back.value && std::abs(back.value->si - si) <= rounding * std::abs(si)) break;
  }
  return text;
}

std::string event_text(const PanelEvent& event, const Test& test) {
  if (event.hail) return "hail (" + test.protocol.series[event.index].name + ")";
  return test.protocol.stresses[test.record.stresses[event.index].stress].name;
}

/// "; hail (small) came between too, so it belongs to them together".
std::string others_text(const std::vector<PanelEvent>& others, const Test& test) {
  if (others.empty()) return "";
  std::vector<std::string> names;
  for (const PanelEvent& event : others)
    names.push_back(event_text(event, test));
  return fmt::format("; {} came between too, so it belongs to all of them together",
                     enumerate(names));
}

std::string seen_on(const StressReason& r, const Test& test) {
  if (!r.look) return "";
  const std::string& date = test.record.looks.at(*r.look).date;
  return date.empty() || date == test.record.date ? "" : "; seen on " + date;
}

/// "for sandbags and pull together: " where one pair of stages answers for several.
std::string shared_stage_text(const StressVerdict& v, const Test& test) {
  if (v.power_others.empty()) return "";
  std::vector<std::string> names{plan_of(v, test).name};
  for (const PanelEvent& event : v.power_others)
    names.push_back(event_text(event, test));
  return fmt::format("for {} together: ", enumerate(names));
}

/// What else may have done the damage that decided: " together with pull".
std::string together_rider(const StressVerdict& v, const Test& test) {
  std::vector<std::string> names;
  for (const StressReason& r : v.reasons) {
    if (r.because != StressBecause::together) continue;
    for (const PanelEvent& event : r.subject.empty() ? v.power_others : v.look_others) {
      std::string name = event_text(event, test);
      if (std::find(names.begin(), names.end(), name) == names.end())
        names.push_back(std::move(name));
    }
  }
  return names.empty() ? "" : " together with " + enumerate(names);
}

/// A quantity whose whole 95 % interval is stronger than the plan and its tolerance.
bool surely_more(const StressVerdict& v) {
  return std::any_of(v.quantities.begin(), v.quantities.end(), [](const StressQuantity& q) {
    const StressReached& r = q.reached;
    const double strongest = r.planned * (1.0 + (r.weak_when_low ? 1.0 : -1.0) * r.tolerance);
    return r.weak_when_low ? q.low > strongest : q.high < strongest;
  });
}

/// "pressure: 2210 Pa against 2400 Pa".
std::string against_plan(const std::string& label, const StressVerdict& v) {
  const auto found = std::find_if(v.quantities.begin(), v.quantities.end(),
                                  [&](const auto& q) { return q.reached.label == label; });
  if (found == v.quantities.end()) return label;
  const StressReached& r = found->reached;
  if (r.yes_no) return label + ": no";
  const std::string unit = r.unit.empty() ? "" : " " + r.unit;
  return fmt::format("{}: {}{} against {}{}", label, fixed(r.done.value.si(), r.decimals), unit,
                     fixed(r.planned, r.decimals), unit);
}

const PowerResult* power_of(const StressVerdict& v, const Assessment& a) {
  return v.power ? &a.stress_power.at(*v.power) : nullptr;
}

/// What must be said in one breath with the word.
std::string word_rider(const StressVerdict& v, const Test& test, const Assessment& a) {
  if (v.word == Word::withstood) {
    if (!v.power_claimed) return " as to visible damage; power not judged";
    const PowerResult* p = power_of(v, a);
    if (p != nullptr && p->is_real())
      return ", with a measured loss of power of " + interval_text(*p);
    return "";
  }
  if (v.word != Word::damaged) return "";
  if (!v.damage_by) return together_rider(v, test);
  switch (*v.damage_by) {
  case StressDamageBy::at_level:
    return "";
  case StressDamageBy::perhaps_more:
    return surely_more(v) ? ", by more than was planned" : ", perhaps by more than was planned";
  case StressDamageBy::below_level:
    return ", by less than was planned already";
  }
  fail_contract("unknown kind of damage");
}

/// Obstacles of the comparison are told of shots; here it is a stress.
std::string stress_obstacle_sentence(const PowerResult& p, const Test& test) {
  if (p.obstacle == PowerObstacle::no_reading_before)
    return fmt::format("no reading {} that counts", stage_text(p.from, test));
  if (p.obstacle == PowerObstacle::no_reading_after)
    return fmt::format("no reading {} that counts", stage_text(p.stage, test));
  return obstacle_sentence(p.obstacle, p.obstacle_subject);
}

}  // namespace

std::string stress_value_text(const StressKey& key, const StressValue& value) {
  if (!key.words.empty()) return std::string(key.words.at(static_cast<std::size_t>(value.si)));
  if (key.count) return fixed(value.si, 0);
  return value.step_si > 0.0 ? value.text : amount_text(key, value.si);
}

std::vector<std::string> stress_value_lines(const std::vector<StressKey>& keys,
                                            const StressValues& values) {
  std::vector<std::string> lines;
  for (const StressKey& key : keys) {
    const auto value = values.find(std::string(key.key));
    if (value == values.end()) continue;
    lines.push_back(fmt::format("{}: {}", key.key, stress_value_text(key, value->second)));
  }
  return lines;
}

std::string stress_text(const StressPlan& plan) {
  std::string text(plan.kind->word);
  if (plan.level != nullptr) {
    text += fmt::format(" at the nominal {} figures", plan.level->name);
  } else {
    const auto lines = stress_value_lines(plan.kind->planned, plan.values);
    if (!lines.empty()) text += fmt::format(" with {}", fmt::join(lines, ", "));
  }
  return plan.name == plan.kind->word ? text : fmt::format("{} ({})", text, plan.name);
}

std::vector<std::string> stress_headlines(const Test& test, const Assessment& a) {
  std::vector<std::string> parts;
  for (const StressVerdict& v : a.stresses) {
    parts.push_back(fmt::format("This panel under {}: {}{}.", stress_text(plan_of(v, test)),
                                word_text(v.word), word_rider(v, test, a)));
  }
  std::vector<std::string> not_done;
  const auto& done = test.record.stresses;
  for (std::size_t i = 0; i < test.protocol.stresses.size(); ++i) {
    if (std::none_of(done.begin(), done.end(), [&](const StressDone& d) { return d.stress == i; }))
      not_done.push_back(test.protocol.stresses[i].name);
  }
  if (!not_done.empty())
    parts.push_back(fmt::format("Planned and not done: {}.", enumerate(not_done)));
  return parts;
}

std::string stress_quantity_sentence(const StressQuantity& q) {
  const StressReached& r = q.reached;
  if (r.yes_no) return fmt::format("{}: {}", r.label, r.done.value.si() > 0.5 ? "yes" : "no");
  const auto number = [&](double value) { return fixed(value, r.decimals); };
  const std::string unit = r.unit.empty() ? "" : " " + r.unit;
  std::string text = fmt::format("{}: {}{}", r.label, number(r.done.value.si()), unit);
  if (q.low < q.high)
    text += fmt::format(" (95 %: {} to {}{})", number(q.low), number(q.high), unit);
  text += fmt::format(", planned {}{}", number(r.planned), unit);
  if (r.tolerance > 0.0) {
    text += fmt::format(", counts {} {}{}", r.weak_when_low ? "from" : "up to",
                        number(q.counts_from), unit);
  }
  switch (q.side) {
  case StressSide::not_weaker:
    text += ": at least as strong as that";
    break;
  case StressSide::weaker:
    text += ": weaker";
    break;
  case StressSide::cannot_tell:
    text += fmt::format(": not shown to be strong enough ({} sure)",
                        probability_text(q.chance_not_weaker));
    break;
  }
  if (!r.taken.empty()) text += ". Taken: " + r.taken;
  return text;
}

std::string stress_damage_sentence(const StressVerdict& v) {
  switch (v.damage_by.value()) {
  case StressDamageBy::at_level:
    return "nothing that was done could have been stronger than planned: damaged at the plan";
  case StressDamageBy::perhaps_more:
    return fmt::format("what was done {} stronger than planned; says nothing about the plan itself",
                       surely_more(v) ? "was" : "may have been");
  case StressDamageBy::below_level:
    return "what was done was weaker than planned: damaged already below the plan";
  }
  fail_contract("unknown kind of damage");
}

std::string not_equivalent_sentence(const StressKind& kind) {
  return fmt::format("not equivalent to {}", kind.unlike);
}

std::string stress_stages_sentence(const StressVerdict& v, const Test& test, const Assessment& a) {
  const PowerResult& p = a.stress_power.at(v.power.value());
  return fmt::format("power compared: {}the stage {} with the stage {}", shared_stage_text(v, test),
                     stage_text(p.stage, test), stage_text(p.from, test));
}

std::string stress_day_text(const StressDone& done, const Record& record) {
  const std::string& date = done.date.empty() ? record.date : done.date;
  return fmt::format("on {}{}", date, done.after_hail ? ", after the shots" : "");
}

namespace {

std::string beyond_text(const StressVerdict& v, const Test& test, const PowerResult& p) {
  return fmt::format("loss of power {}, beyond the limit of {}{}{}", interval_text(p),
                     limit_text(p.limit), others_text(v.power_others, test), simple_rider(p));
}

std::string within_text(const StressVerdict& v, const Test& test, const PowerResult& p) {
  return fmt::format("{}{}; a loss of {} would have shown {}{}", shared_stage_text(v, test),
                     within_claim(p), percent_text(p.smallest_shown), chance_text(p.see_chance),
                     simple_rider(p));
}

std::string clean_text(const StressVerdict& v, const Test& test) {
  const std::string day = v.look_after ? test.record.looks.at(*v.look_after).date : "";
  return fmt::format("no new major defect seen{}; cracks can open later",
                     day.empty() ? "; looked at on the day of the test unless said otherwise"
                                 : ", looked at on " + day);
}

/// Reasons that are about the power.
std::string power_reason(StressBecause because, const StressVerdict& v, const Test& test,
                         const PowerResult& p) {
  switch (because) {
  case StressBecause::power_beyond:
    return beyond_text(v, test, p);
  case StressBecause::power_obstacle:
    return shared_stage_text(v, test) + stress_obstacle_sentence(p, test);
  case StressBecause::power_not_deciding:
    return shared_stage_text(v, test) + no_answer_sentence(p);
  case StressBecause::power_not_valid:
    return shared_stage_text(v, test) + "the power result is not valid: " + not_valid_sentence(p);
  case StressBecause::power_undecided:
    return shared_stage_text(v, test) + open_limit_sentence(p);
  case StressBecause::power_within:
    return within_text(v, test, p);
  default:
    fail_contract("a reason that is not about the power");
  }
}

}  // namespace

std::string stress_reason_sentence(const StressReason& r, const StressVerdict& v, const Test& test,
                                   const Assessment& a) {
  switch (r.because) {
  case StressBecause::new_major_defect:
    return fmt::format("new major defect: {}{}{}", r.subject, seen_on(r, test),
                       others_text(v.look_others, test));
  case StressBecause::not_told:
    return "how strong it was cannot be told from what was typed and from the panel's file";
  case StressBecause::weaker:
    return against_plan(r.subject, v) + ", less than was planned";
  case StressBecause::perhaps_weaker:
    return against_plan(r.subject, v) + ", not shown to be as strong as planned";
  case StressBecause::together:
    return fmt::format("{}{}",
                       r.subject.empty() ? "the power dropped beyond the limit"
                                         : "new major defect: " + r.subject + seen_on(r, test),
                       others_text(r.subject.empty() ? v.power_others : v.look_others, test));
  case StressBecause::no_look_before:
    return "nobody looked before it, so nothing seen can be called new";
  case StressBecause::no_look_after:
    return "nobody looked after it";
  case StressBecause::cell_share_not_stated:
    return fmt::format("{}{}: the share of the cell is not stated, so it cannot be told whether it "
                       "is major",
                       r.subject, seen_on(r, test));
  case StressBecause::power_missing:
    return "the protocol claims power, but there are no readings after it";
  case StressBecause::power_spoilt:
  case StressBecause::unsuited:
    return r.subject;
  case StressBecause::damaged_before:
    return "hail or a stress before it had damaged the panel already";
  case StressBecause::defect_from_start:
    return "there before anything was done already, so not new: " + r.subject;
  case StressBecause::delivered:
    return "all of it was done at least as strongly as planned";
  case StressBecause::looks_clean:
    return clean_text(v, test);
  case StressBecause::power_beyond:
  case StressBecause::power_obstacle:
  case StressBecause::power_not_deciding:
  case StressBecause::power_not_valid:
  case StressBecause::power_undecided:
  case StressBecause::power_within:
    return power_reason(r.because, v, test, a.stress_power.at(v.power.value()));
  }
  fail_contract("unknown reason");
}

}  // namespace hailwright
