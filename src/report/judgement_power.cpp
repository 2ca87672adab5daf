#include "report/judgement_power.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "hailwright/core/quantity_text.hpp"
#include "report/budget_rows.hpp"
#include "report/check_sentences.hpp"
#include "report/judged_stages.hpp"
#include "report/log_use_sentences.hpp"
#include "report/sentences.hpp"
#include "report/setup_notes.hpp"
#include "report/shown_loss.hpp"
#include "report/words.hpp"

namespace hailwright {

std::string loss_line(const PowerResult& p) {
  const LossEstimate& e = p.estimate;
  return fmt::format("loss {} ({} interval {})", loss_text(e.loss(), p), level_text(e.alpha),
                     ends_text(e.low(), e.high(), p));
}

std::string watts_text(const PowerResult& p) {
  const Power before = p.before->power;
  const int decimals = watts_decimals(p, before);
  const auto watts = [&](Ratio r) {
    const Ratio shown = std::clamp(r, -most_percent_shown, most_percent_shown);
    return (shown > r ? "below " : "") + fixed(before.si() * shown.si(), decimals);
  };
  return fmt::format("about {} W of {} W (between {} and {} W), at 1000 W/m2 and 25 degC",
                     watts(p.estimate.loss()), watts(Ratio::from_si(1.0)), watts(p.estimate.low()),
                     watts(p.estimate.high()));
}

namespace {

std::string watts_line(const PowerResult& p) {
  const Power before = p.before->power;
  const bool known = p.before->relative_u < Ratio::from_si(1.0);
  return fmt::format("{}; the {} W themselves are {} {} (u)", watts_text(p),
                     fixed(before.si(), watts_decimals(p, before)),
                     known ? "known within" : "not known, their uncertainty is",
                     percent_text(p.before->relative_u, 0));
}

}  // namespace

std::string basis_line(const PowerResult& p) {
  const PowerModel& m = *p.model;
  const char* unit = m.unit_is_day ? "day" : "set-up";
  std::string text =
      m.siblings
          ? fmt::format("from {}, {}", counted(m.units_to, unit), siblings_sentence(*m.siblings))
          : fmt::format("from {} before and {} after", counted(m.units_from, unit), m.units_to);
  if (m.units_baseline > 0) text += fmt::format(", {} of baseline", m.units_baseline);
  if (m.pooled_sd && !m.siblings) {
    text += fmt::format("; they scatter by {} ({} of freedom)",
                        percent_text(Ratio::from_si(*m.pooled_sd), 2),
                        counted(static_cast<int>(std::lround(m.observed_dof)), "degree"));
  }
  if (p.rests_on_stated) text += "; rests on stated set-up scatter";
  if (p.in_turn) text += "; both panels read in turn with one meter";
  if (m.drift_taken_out()) text += "; a steady drift in time is taken out inside each set-up";
  return text;
}

std::string later_line(const PowerResult& p) {
  return "measured " + days_after_text(p) + "; adds to the answer above and does not replace it";
}

namespace {

std::string looks_line(const PowerResult& p) {
  return fmt::format("one of {} looks at the result that share the risk, so the interval is one of "
                     "{}",
                     p.looks_counted, level_text(p.estimate.alpha));
}

void add_answers(Fact& fact, const PowerResult& p, const std::optional<ReaderAnswer>& reader) {
  const std::string limit = limit_text(p.limit);
  const auto tone = [](bool good, bool bad) {
    return good ? Tone::good : bad ? Tone::bad : Tone::open;
  };
  fact.lines.push_back({{"a drop? ", Tone::plain}, {real_answer(p), tone(false, p.is_real())}});
  Runs beyond{{fmt::format("beyond {}? ", limit), Tone::plain},
              {beyond_answer(p), tone(p.is_within(), p.is_beyond())}};
  if (p.usable()) {
    beyond.push_back({fmt::format("; probability that the loss is above {}: {}", limit,
                                  probability_text(p.estimate.probability_above(p.limit))),
                      Tone::plain});
  }
  fact.lines.push_back(std::move(beyond));
  if (reader) fact.lines.push_back(plain(reader_limit_sentence(p, reader->limit, reader->answers)));
}

std::vector<PowerNote> notes_of(const PowerResult& p, RemarkWeight weight) {
  std::vector<PowerNote> notes;
  for (const PowerNote& n : p.notes) {
    if (weight_of(n.remark) == weight) notes.push_back(n);
  }
  return notes;
}

/// What was left out, kept in, or tried otherwise, each with its own result.
void add_variants(Fact& fact, const PowerResult& p, const Test& test) {
  if (p.with_skipped) {
    fact.lines.push_back(plain(with_skipped_sentence(p, test.record)));
  }
  if (p.without_outlying) {
    const std::size_t n = p.outlying.size();
    fact.lines.push_back(plain(fmt::format("with the {} left out: {}",
                                           n == 1 ? "reading that lies apart"
                                                  : fmt::format("{} readings that lie apart", n),
                                           interval_text(*p.without_outlying, p))));
  }
  if (p.baseline) fact.lines.push_back(plain(baseline_sentence(p, *p.baseline)));
  if (p.check) {
    for (std::string& line : trials_sentences(p, *p.check))
      fact.lines.push_back(plain(std::move(line)));
  } else {
    fact.lines.push_back(plain(unchecked_sentence()));
  }
}

/// Warnings and what was not stated; what decides stands with the verdict already.
void add_notes(Fact& fact, const PowerResult& p, const Test& test, const SourceSet& sources) {
  const auto sentence = [&](const std::vector<PowerNote>& group) {
    const PowerNote& n = group.front();
    if (is_of_setup(n.remark)) return setups_sentence(group);
    return n.remark == PowerRemark::outlying_reading
               ? outlying_sentence(group, test.protocol.measure.compare)
               : note_sentence(n);
  };
  const auto add = [&](const std::vector<PowerNote>& group) {
    const bool apart = group.front().remark == PowerRemark::outlying_reading;
    fact.lines.push_back(
        plain("note: " + sentence(group) +
              (apart ? first_places_text(sources, group) : places_text(sources, group))));
  };
  for (const RemarkWeight w : {RemarkWeight::not_valid, RemarkWeight::no_verdict,
                               RemarkWeight::blocks_limit, RemarkWeight::warning}) {
    for (const std::vector<PowerNote>& group : by_remark(notes_of(p, w))) {
      // Said with the trials.
      if (group.front().remark != PowerRemark::methods_disagree) add(group);
    }
  }
  std::vector<std::string> unstated;
  for (const PowerNote& n : notes_of(p, RemarkWeight::note)) {
    if (n.remark == PowerRemark::not_stated) {
      unstated.push_back(n.subject);
    } else {
      add({n});
    }
  }
  if (!unstated.empty()) {
    fact.lines.push_back(plain("note: not stated under conditions: " + enumerate(unstated)));
  }
}

}  // namespace

void append_power_facts(Facts& facts, const PowerResult& p, const Test& test,
                        const SourceSet& sources, const std::optional<ReaderAnswer>& reader) {
  Fact fact{p.stage.kind == StageKind::after ? "power" : "power " + stage_text(p.stage, test), {}};
  if (!p.estimated()) {
    fact.lines.push_back(
        plain("no comparison: " + obstacle_sentence(p.obstacle, p.obstacle_subject)));
    if (std::string why = emptied_setups_sentence(test.record); !why.empty())
      fact.lines.push_back(plain(std::move(why)));
    facts.items.push_back(std::move(fact));
    return;
  }
  fact.lines.push_back({{loss_line(p), Tone::strong}});
  if (p.before) fact.lines.push_back(plain(watts_line(p)));
  add_answers(fact, p, reader);
  if (p.simple && p.usable()) fact.lines.push_back(plain(simple_sentence()));
  if (p.settling) fact.lines.push_back(plain(settling_sentence(p, *p.settling)));
  if (p.from.kind != StageKind::before)
    fact.lines.push_back(plain("compared with the stage " + stage_text(p.from, test)));
  fact.lines.push_back(plain(basis_line(p)));
  if (p.looks_counted > 1 && find_note(p, PowerRemark::extended) == nullptr)
    fact.lines.push_back(plain(looks_line(p)));
  add_variants(fact, p, test);
  if (p.stage.kind == StageKind::later && p.days_after_shots)
    fact.lines.push_back(plain(later_line(p)));
  add_notes(fact, p, test, sources);
  facts.items.push_back(std::move(fact));
}

Facts power_facts(const Judged& judged, const SourceSet& sources) {
  Facts facts;
  for (const JudgedStage& stage : judged_stages(judged)) {
    std::optional<ReaderAnswer> answer;
    if (stage.reader != nullptr) answer = ReaderAnswer{judged.reader_limit->limit, *stage.reader};
    append_power_facts(facts, *stage.power, *judged.test, sources, answer);
  }
  return facts;
}

namespace {

/// The smallest loss shown at the ends of the scatter's range, where they print apart.
std::string range_text(const PowerResult& p) {
  if (!p.smallest_shown_range) return "";
  const std::string low = percent_text(p.smallest_shown_range->first);
  const std::string high = percent_text(p.smallest_shown_range->second);
  if (low == high) return "";
  return fmt::format("; {} to {} if the scatter is taken at the ends of its 90 % range", low, high);
}

}  // namespace

void append_detection_facts(Facts& facts, const Assessment& a, const Test& test) {
  for (const PowerResult* stage : all_stages(a)) {
    const PowerResult& p = *stage;
    if (!p.estimated()) continue;
    Fact fact{"power " + stage_text(p.stage, test), {}};
    if (!p.decides || !p.valid) {
      fact.lines.push_back(plain("nothing that counts: see the notes on the power above"));
    } else {
      fact.lines.push_back(
          plain(fmt::format("a loss of {} would have shown {}{}", percent_text(p.smallest_shown),
                            chance_text(p.see_chance), range_text(p))));
      fact.lines.push_back(plain(fmt::format(
          "a loss estimated above {} would have been called a drop; a smaller one may be there all "
          "the same",
          percent_text(p.estimate.real_above()))));
    }
    facts.items.push_back(std::move(fact));
  }
}

std::string freedom_line(const PowerResult& p) {
  const double nu = p.estimate.degrees_of_freedom;
  constexpr double many = 1e6;  // t is the normal quantile to its sixth digit [ours]
  return fmt::format(
      "{} degrees of freedom; the interval is {} times the standard uncertainty each "
      "way.",
      !std::isfinite(nu) ? "Unlimited"
      : nu > many        ? "More than a million"
                         : fixed(nu, nu < 100.0 ? 1 : 0),
      fixed(p.estimate.expanded / p.estimate.u_lambda, 2));
}

namespace {

/// Later stages add to the verdict alone.
std::vector<const PowerResult*> budget_stages(const Assessment& a) {
  std::vector<const PowerResult*> stages = all_stages(a);
  std::erase_if(stages, [](const PowerResult* p) { return p->stage.kind == StageKind::later; });
  return stages;
}

}  // namespace

void append_budget(Document& out, const Assessment& a, const Test& test) {
  const std::vector<const PowerResult*> stages = budget_stages(a);
  for (const PowerResult* stage : stages) {
    const PowerResult& p = *stage;
    if (!p.estimated()) continue;
    out.blocks.push_back(Heading{2, plain(stages.size() > 1 ? "Where the uncertainty comes from, " +
                                                                  stage_text(p.stage, test)
                                                            : "Where the uncertainty comes from")});
    Table table{"", {{"source"}, {"points", Align::right}, {"share", Align::right}}, {}};
    for (const ShownBudgetRow& row : shown_budget(p)) {
      table.rows.push_back({row.together ? row.label + " (standard uncertainty)" : row.label,
                            row.number, row.share});
    }
    out.blocks.push_back(std::move(table));
    out.blocks.push_back(Paragraph{plain("Percentage points of the loss. " + freedom_line(p))});
  }
}

}  // namespace hailwright
