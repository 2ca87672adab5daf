#include "report/power_sentences.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "hailwright/core/contract.hpp"
#include "hailwright/core/quantity_text.hpp"
#include "report/check_sentences.hpp"
#include "report/sentences.hpp"
#include "report/setup_notes.hpp"
#include "report/shown_loss.hpp"
#include "report/words.hpp"

namespace hailwright {

std::string obstacle_sentence(PowerObstacle obstacle, const std::string& subject) {
  switch (obstacle) {
  case PowerObstacle::none:
    return "";
  case PowerObstacle::no_reading_before:
    return "no reading before the shots that counts";
  case PowerObstacle::no_reading_after:
    return "no reading after the shots that counts";
  case PowerObstacle::no_replication:
    return "one set-up before and one after: nothing in the data tells how far two set-ups of an "
           "unchanged panel differ. Three or more a stage would; readings without mounting anew "
           "do not count as set-ups";
  case PowerObstacle::redone_not_stated:
    return "it is not said what each set-up took down and built again, so the set-ups cannot "
           "count as repeats. Write measure: {redone: [mount, aim, probe, leads]} in the "
           "protocol, if that is what was done";
  case PowerObstacle::part_not_redone:
    return fmt::format("'{0}' was not redone in each set-up and its size is not stated. Redo it, "
                       "or state it: measure: {{setup_scatter: {{...: {{spread: ..., of: {0}}}}}}}",
                       subject);
  case PowerObstacle::part_not_stated:
    return fmt::format("the stated set-up scatter leaves out '{0}'. State every step, or one "
                       "figure for a whole set-up: measure: {{setup_scatter: {{{0}: ..., ...}}}}",
                       subject);
  case PowerObstacle::one_reading:
    return "a set-up with one reading has no spread: take three or more readings in each";
  case PowerObstacle::no_control_pair:
    return fmt::format("set-up '{}' has no round in which a reading of each panel counts", subject);
  case PowerObstacle::no_sibling:
    return "no reading of an unstruck unit of the model that counts";
  case PowerObstacle::siblings_set_up_once:
    return "the same panels were not all set up twice or more: nothing in the data tells how far "
           "two set-ups of unchanged panels differ. Set all of them up again, three times or more, "
           "or "
           "state it: measure: {setup_scatter: ...}";
  case PowerObstacle::one_sibling_set:
    return "one unstruck unit alone says nothing of how far two units of the model differ. Read "
           "three or more; or state the maker's tolerance, which gives an interval and no answer: "
           "measure: {unit_tolerance: ...}";
  case PowerObstacle::trend_needs_setups:
    return "a straight line in time needs four set-ups before the shots and four after, with a "
           "time at readings of each and not all of a stage at one time";
  }
  fail_contract("unknown obstacle");
}

std::string outlying_sentence(const PowerNote& n, Comparison compared) {
  return fmt::format(
      "{} '{}' lies {} standard deviations from the mean of its set-up, reckoned without the "
      "others flagged there; of good ones the furthest lies beyond {} once in a hundred set-ups. "
      "It is kept: the record gives no reason against it",
      compared == Comparison::same_panel ? "a reading of"
                                         : "the difference of the panels in a round of",
      n.subject, fixed(n.numbers.at(0), 2), fixed(n.numbers.at(1), 2));
}

std::string outlying_sentence(const std::vector<PowerNote>& notes, Comparison compared) {
  expects(!notes.empty(), "a note");
  if (notes.size() == 1) return outlying_sentence(notes.front(), compared);
  double furthest = 0.0;
  for (const PowerNote& n : notes)
    furthest = std::max(furthest, n.numbers.at(0));
  return fmt::format(
      "{} {} of '{}' lie apart from the mean of their set-up, the furthest {} "
      "standard deviations, reckoned without the others flagged there; of good ones "
      "the furthest lies beyond {} once in a hundred set-ups. They are kept: the "
      "record gives no reason against them",
      notes.size(),
      compared == Comparison::same_panel ? "readings" : "differences of the panels in a round",
      notes.front().subject, fixed(furthest, 2), fixed(notes.front().numbers.at(1), 2));
}

std::string with_skipped_sentence(const PowerResult& p, const Record& record) {
  expects(p.with_skipped.has_value(), "a result with the skipped readings");
  const std::string result = interval_text(*p.with_skipped, p);
  const auto without_value =
      std::count_if(record.readings.begin(), record.readings.end(), [&](const Reading& r) {
        const StageId& stage = record.setups[r.setup].stage;
        return !r.skip.empty() && !r.measured &&
               (stage == p.stage || stage.kind == StageKind::before ||
                stage.kind == StageKind::baseline);
      });
  if (without_value == 0) return "with the skipped readings kept in: " + result;
  return fmt::format(
      "with those of the skipped readings kept in that have a value ({} {} none): {}",
      without_value, without_value == 1 ? "has" : "have", result);
}

const PowerNote* find_note(const PowerResult& p, PowerRemark remark) {
  const auto found = std::find_if(p.notes.begin(), p.notes.end(),
                                  [&](const PowerNote& n) { return n.remark == remark; });
  return found == p.notes.end() ? nullptr : &*found;
}

std::string extension_text(const PowerNote& n) {
  expects(n.remark == PowerRemark::extended, "a note on looks beyond the plan");
  return fmt::format("extended after seeing the result: looked at {} times where the protocol "
                     "plans {}",
                     fixed(n.numbers.at(0), 0), fixed(n.numbers.at(1), 0));
}

std::string disagreement_sentence(const std::string& ends) {
  return fmt::format("the two methods disagree at this accuracy: random trials give a loss of {} "
                     "and would answer otherwise, so this is left undecided",
                     ends);
}

namespace {

std::string condition_words(const std::string& key) {
  if (key == "clean_and_dry") return "whether both panels were clean and dry";
  if (key == "same_leads") return "whether the same leads were used";
  if (key == "pre_exposed") return "whether the panels had been in the sun before";
  if (key == "in_sun_first") return "how long the panels stood in the sun first";
  if (key == "incidence") return "how steeply the sun fell in";
  if (key == "incidence_change") return "how much that changed between the stages";
  if (key == "since_last_shot") return "the time since the last shot";
  return key;
}

/// What a fitted line does to the standard uncertainty by the scatter, in lambda.
std::string trend_sentence(double with, double without) {
  const std::string times =
      without > 0.0 ? fixed(with / without, 1) + " times as large with the line as" : "larger than";
  return fmt::format("a straight line in time was taken out of all set-ups, as the protocol says: "
                     "the part of the scatter in the standard uncertainty is {} it would be "
                     "without ({} % against {} %)",
                     times, fixed(with * 100, 2), fixed(without * 100, 2));
}

/// Looks at the result and set-ups beyond the plan, and readings that lie apart.
std::string plan_sentence(const PowerNote& n) {
  const auto whole = [&](std::size_t i) { return fixed(n.numbers.at(i), 0); };
  switch (n.remark) {
  case PowerRemark::extended:
    return fmt::format("{}. Whoever adds set-ups until something is decided is wrong more often, "
                       "so each look is judged at a risk of {} %",
                       extension_text(n), plain_number(n.numbers.at(2) * 100, 3));
  case PowerRemark::more_setups_than_planned:
    return fmt::format("{} set-ups after the shots where the protocol plans {}. If the result was "
                       "seen before they were added, say how often it was looked at, this time "
                       "included: results_seen: 2",
                       whole(0), whole(1));
  case PowerRemark::outlying_reading:
    return outlying_sentence(n, Comparison::same_panel);
  case PowerRemark::trend_fitted:
    return trend_sentence(n.numbers.at(0), n.numbers.at(1));
  default:
    fail_contract("not about the plan");
  }
}

/// Of two means that were compared: the struck panel's and the unstruck units', not two stages'.
bool of_siblings(const PowerNote& n) {
  return n.subject == "siblings";
}

std::string warning_sentence(const PowerNote& n) {
  const auto number = [&](std::size_t i, int decimals) { return fixed(n.numbers.at(i), decimals); };
  switch (n.remark) {
  case PowerRemark::low_irradiance:
    return fmt::format("irradiance down to {} W/m2; below {} the correction grows doubtful",
                       number(0, 0), number(1, 0));
  case PowerRemark::irradiance_differs:
    return fmt::format("mean irradiance {} W/m2 {} and {} {}: more than 10 % apart", number(0, 0),
                       of_siblings(n) ? "of the struck panel" : "before", number(1, 0),
                       of_siblings(n) ? "of the unstruck units" : "after");
  case PowerRemark::unsteady_irradiance:
  case PowerRemark::unsteady_temperature:
    return setups_sentence({n});
  case PowerRemark::temperature_differs:
    return fmt::format("cells {}; {} K is the most",
                       of_siblings(n)
                           ? fmt::format("of struck and unstruck panels {} K apart", number(0, 1))
                           : fmt::format("{} K apart between the stages", number(0, 1)),
                       number(1, 0));
  case PowerRemark::incidence_large:
    return fmt::format("sun at {} deg from the normal; {} deg is the most", number(0, 0),
                       number(1, 0));
  case PowerRemark::incidence_changed:
    return fmt::format("angle of the sun changed by {} deg between the stages; {} deg is the most",
                       number(0, 0), number(1, 0));
  case PowerRemark::short_time_in_sun:
    return fmt::format("{} min in the sun first; {} min is the least", number(0, 0), number(1, 0));
  case PowerRemark::soon_after_shots:
    return fmt::format("read {} min after the last shot; {} min let the panel dry and settle",
                       number(0, 0), number(1, 0));
  case PowerRemark::variances_differ:
    return fmt::format("the set-ups scatter unlike in the two stages (F at {} of its 97.5 % "
                       "point); the pooled figure is used all the same",
                       number(0, 1));
  case PowerRemark::stated_smaller_than_observed:
    return fmt::format("the set-ups scatter more than the protocol states ({} against {} points "
                       "in u): the observed scatter is used",
                       fixed(n.numbers.at(1) * 100, 2), fixed(n.numbers.at(0) * 100, 2));
  default:
    return plan_sentence(n);
  }
}

/// "the panel", "the control", "unit B".
std::string with_article(const std::string& panel) {
  return panel.starts_with("unit ") ? panel : "the " + panel;
}

std::string coarse_display_sentence(const PowerNote& n) {
  const bool sun = n.remark == PowerRemark::sun_display_too_coarse;
  const std::string of = n.subject.empty() ? "" : " of " + with_article(n.subject);
  return fmt::format(
      "the display{} shows {} {}{} in steps of {} {}, and the readings of a stage do not "
      "spread over them: a loss that matters can hide in one step. Read with finer "
      "steps, or over readings that differ by more than a step",
      sun ? " of the sun meter" : "", plain_number(n.numbers.at(1), 3), sun ? "W/m2" : "W", of,
      plain_number(n.numbers.at(0), 3), sun ? "W/m2" : "W");
}

std::string tool_words(const std::string& tool) {
  if (tool == "meter") return "power meter";
  if (tool == "sun") return "sun meter";
  return tool;
}

/// The error of a tool that cancels where the tool is the same.
const char* error_of(const std::string& tool) {
  return tool == "thermometer" ? "offset" : "gain";
}

/// @param tools  "meter, sun, thermometer", or some of them
std::string tools_not_said_sentence(std::string tools) {
  std::vector<std::string> names;
  std::vector<std::string> errors;
  for (std::size_t end = 0; end != std::string::npos;) {
    end = tools.find(", ");
    const std::string tool = tools.substr(0, end);
    names.push_back(tool_words(tool));
    errors.push_back(fmt::format("the {} of the {}", error_of(tool), names.back()));
    if (end != std::string::npos) tools.erase(0, end + 2);
  }
  return fmt::format("it is not said that the same {} read all stages, so each stage is taken to "
                     "have had another of its kind, and {} {} not cancel between the stages. If "
                     "the instruments were the same: conditions: {{same_tools: yes}}",
                     enumerate(names), enumerate(errors), errors.size() == 1 ? "does" : "do");
}

}  // namespace

std::string note_sentence(const PowerNote& n) {
  switch (n.remark) {
  case PowerRemark::fixed_load:
    return "the load is a fixed one: the readings are not maximum power";
  case PowerRemark::battery_full:
    return setups_sentence({n});
  case PowerRemark::few_units:
    return fmt::format("{0} of freedom in the scatter of the {1}s: too few to decide by. Four are "
                       "the least; each stage gives one fewer than its {1}s, so three before and "
                       "three after are enough",
                       counted(static_cast<int>(std::lround(n.numbers.at(0))), "degree"),
                       n.subject);
  case PowerRemark::spread_not_measured:
    return fmt::format("the spread of the model is not measured: {} read, and three are the least "
                       "to decide by. The interval stands, no answer is drawn from it",
                       counted(static_cast<int>(std::lround(n.numbers.at(0))), "unstruck unit"));
  case PowerRemark::display_too_coarse:
  case PowerRemark::sun_display_too_coarse:
    return coarse_display_sentence(n);
  case PowerRemark::methods_disagree:
    return disagreement_sentence(fmt::format("{} % to {} %", fixed(n.numbers.at(0) * 100, 2),
                                             fixed(n.numbers.at(1) * 100, 2)));
  case PowerRemark::power_gained:
    return "the power seems to have risen by more than the uncertainty allows. Hail adds no "
           "power: something else changed, such as dirt washed off, the sun meter moved, or a "
           "panel not yet settled in the sun";
  case PowerRemark::control_moved:
    return fmt::format("the unstruck control changed by {} %: more than the bound of {} % on its "
                       "stability and the uncertainty of that change allow",
                       fixed(n.numbers.at(0) * 100, 1), fixed(n.numbers.at(1) * 100, 1));
  case PowerRemark::baseline_moved:
    return fmt::format("two blocks of the untouched panel differ by {} % ({} to {}): the method "
                       "shows a change where there was none",
                       fixed(n.numbers.at(0) * 100, 1), fixed(n.numbers.at(1) * 100, 1),
                       fixed(n.numbers.at(2) * 100, 1));
  case PowerRemark::not_following_sun:
    return fmt::format("the power of {} rises with {} of the irradiance where 1 is due: "
                       "something else than the sun limited it, so nothing is said about the "
                       "limit",
                       with_article(n.subject), fixed(n.numbers.at(0), 2));
  case PowerRemark::not_stated:
    return "not stated: " + condition_words(n.subject);
  case PowerRemark::battery_not_stated:
    return fmt::format("whether the load took all the power is not checked where its state of "
                       "charge is not stated: {}",
                       n.subject);
  case PowerRemark::baseline_not_checked:
    return "the baseline was not compared with the readings before: too few set-ups";
  case PowerRemark::other_instrument:
    return fmt::format("another instrument after the shots: {}. Its {} does not cancel",
                       tool_words(n.subject), error_of(n.subject));
  case PowerRemark::tools_not_said:
    return tools_not_said_sentence(n.subject);
  case PowerRemark::not_clean:
    return "the panels were not clean and dry";
  case PowerRemark::other_leads:
    return "other leads were used after the shots";
  case PowerRemark::not_pre_exposed:
    return "a new panel drifts in its first sun";
  default:
    return warning_sentence(n);
  }
}

namespace {

constexpr const char* disagreement = "undecided: the two methods disagree at this accuracy";

/// Whether the interval and the random trials answer one question differently.
bool differs(const PowerResult& p, Answer LossAnswers::*question) {
  if (!p.check || !p.check->disagrees) return false;
  return decide_loss(p.estimate, p.limit).*question != p.check->answers.*question;
}

}  // namespace

std::string real_answer(const PowerResult& p) {
  if (!p.valid) return "not valid";
  if (!p.decides) return "not decided";
  if (p.is_real()) return "yes, shown";
  if (differs(p, &LossAnswers::real)) return disagreement;
  return "not shown, which is not the same as none";
}

std::string beyond_answer(const PowerResult& p) {
  if (!p.valid) return "not valid";
  if (!p.decides) return "not decided";
  const char* simply = p.simple ? ", by the estimate alone" : "";
  if (p.is_beyond()) return fmt::format("yes{}", simply);
  if (p.is_within()) return fmt::format("no, within it{}", simply);
  if (differs(p, &LossAnswers::beyond)) return disagreement;
  return "undecided";
}

namespace {

std::string reader_answer(const PowerResult& p, Ratio limit, const LossAnswers& answers) {
  if (!p.valid) return "not valid";
  if (!p.decides) return "not decided";
  if (answers.beyond == Answer::yes) return "the loss is beyond it";
  if (answers.beyond == Answer::no) return "the loss is within it";
  return decide_loss(p.estimate, limit).beyond == answers.beyond ? "undecided" : disagreement;
}

/// The ends in as many digits as it takes to see on which side of this limit they lie.
std::string ends_beside(const PowerResult& p, Ratio limit) {
  const LossEstimate& e = p.estimate;
  const int decimals = telling_decimals({e.low(), e.high()}, limit, loss_decimals(p));
  return fmt::format("{} to {}", percent_text(e.low(), decimals), percent_text(e.high(), decimals));
}

}  // namespace

std::string reader_limit_sentence(const PowerResult& p, Ratio limit, const LossAnswers& answers) {
  const std::string odds = p.usable()
                               ? fmt::format("; probability that the loss is above it: {}",
                                             probability_text(p.estimate.probability_above(limit)))
                               : "";
  return fmt::format("a reader's limit of {}: {} (interval {}){}. It is not the protocol's; the "
                     "verdict stays",
                     limit_text(limit), reader_answer(p, limit, answers), ends_beside(p, limit),
                     odds);
}

std::string within_claim(const PowerResult& p) {
  const std::string limit = limit_text(p.limit);
  if (p.simple) {
    return fmt::format("loss of power {}, by its estimate not beyond {}", interval_text(p), limit);
  }
  return p.is_real() ? fmt::format("with a measured loss of power of {}, within {}",
                                   interval_text(p), limit)
                     : "no loss of power greater than " + limit;
}

std::string simple_rider(const PowerResult& p) {
  return p.simple ? "; " + simple_sentence() : "";
}

std::string open_limit_sentence(const PowerResult& p) {
  for (const PowerNote& n : p.notes) {
    if (n.remark == PowerRemark::methods_disagree && p.check) {
      return disagreement_sentence(ends_text(p.check->low, p.check->high, p));
    }
    if (weight_of(n.remark) == RemarkWeight::blocks_limit) return note_sentence(n);
  }
  return fmt::format("loss of power {}: whether it is beyond {} stays open", interval_text(p),
                     limit_text(p.limit));
}

namespace {

/// The first note of this weight.
std::string weighty_note(const PowerResult& p, RemarkWeight weight) {
  for (const PowerNote& n : p.notes) {
    if (weight_of(n.remark) == weight) return note_sentence(n);
  }
  fail_contract("a result without the reason why it does not count");
}

}  // namespace

std::string not_valid_sentence(const PowerResult& p) {
  return weighty_note(p, RemarkWeight::not_valid);
}

std::string no_answer_sentence(const PowerResult& p) {
  return weighty_note(p, RemarkWeight::no_verdict);
}

}  // namespace hailwright
