#include "hailwright/evaluate/power.hpp"

#include <algorithm>
#include <cmath>

#include "evaluate/loss_sampler.hpp"
#include "evaluate/measuring_gates.hpp"
#include "evaluate/outlying.hpp"
#include "evaluate/scatter_choice.hpp"
#include "evaluate/settling.hpp"
#include "evaluate/setup_units.hpp"
#include "evaluate/sibling_comparison.hpp"
#include "hailwright/core/calendar.hpp"
#include "hailwright/core/contract.hpp"
#include "hailwright/metrology/distributions.hpp"

namespace hailwright {

namespace {

/// How the risk is shared between the looks at the result (MEASUREMENT M6): by all that are
/// planned, taken or not, and by those taken where these are more.
struct LookRisk {
  double whole = 0.0;
  int planned = 1;
  std::optional<int> seen;

  [[nodiscard]] int counted() const { return std::max(planned, seen.value_or(0)); }
  [[nodiscard]] bool extended() const { return counted() > planned; }
  [[nodiscard]] double of_this() const { return whole / counted(); }
  /// Of the look after this one; the last planned one when nobody said which it is.
  [[nodiscard]] double of_next() const {
    return whole / std::max(planned, seen.value_or(planned) + 1);
  }
};

LookRisk look_risk(const Test& test, Assumptions& assumptions) {
  const DecisionRule& decide = test.protocol.decide;
  if (!decide.risk) assumptions.use(DefaultId::risk);
  return {decide.risk.value_or(defaults::risk).si(), decide.looks, test.record.results_seen};
}

double miss_chance_of(const Test& test, Assumptions& assumptions) {
  if (test.protocol.decide.see_chance) return 1.0 - test.protocol.decide.see_chance->si();
  assumptions.use(DefaultId::see_chance);
  return 1.0 - defaults::see_chance.si();
}

/// Skipped readings of the stages compared, all or only those that have values.
int count_skipped(const Test& test, const PowerQuestion& question, bool only_measured) {
  return static_cast<int>(std::count_if(
      test.record.readings.begin(), test.record.readings.end(), [&](const Reading& r) {
        const StageId s = test.record.setups[r.setup].stage;
        return !r.skip.empty() && (r.measured || !only_measured) &&
               (s == question.from || s == question.to);
      }));
}

LossEstimate estimate_of(const ScatterCandidate& c, double alpha) {
  return estimate_loss(c.model.lambda(), c.all, c.observed, alpha);
}

/// The day of the shots, or of the stress after which the stage was read.
std::string day_before(const Test& test, StageId stage) {
  const Record& record = test.record;
  std::string day;
  for (const StressDone& done : record.stresses) {
    if (stage.kind == StageKind::after_stress && done.stress == stage.series) day = done.date;
  }
  return day.empty() ? record.date : day;
}

/// First and last day after the shots on which the struck panel was read in this stage; unstruck
/// units may have been read on others.
std::optional<std::pair<int, int>> days_after_shots(const Test& test, StageId stage) {
  const auto shots = day_number(day_before(test, stage));
  std::optional<std::pair<int, int>> days;
  for (const Reading& r : test.record.readings) {
    const Setup& setup = test.record.setups[r.setup];
    const auto day = day_number(setup.date);
    if (r.role != Role::struck || !(setup.stage == stage) || !day || !shots) continue;
    const int after = static_cast<int>(*day - *shots);
    if (!days) days = std::pair(after, after);
    days = std::pair(std::min(days->first, after), std::max(days->second, after));
  }
  return days;
}

/// Builds the result of one stage, step by step.
class PowerJudge {
public:
  PowerJudge(const Test& test, StageId stage, StageId from, Assumptions& assumptions)
      : test_(test), assumptions_(assumptions),
        question_(stage_question(test.protocol, from, stage)) {
    result_.stage = stage;
    result_.from = from;
    result_.limit = test.protocol.decide.limit;
  }

  PowerResult judge(const std::optional<CheckPlan>& check, Extent extent) {
    ScatterChoice choice = choose_scatter(test_, question_, assumptions_);
    if (!choice.chosen) {
      result_.obstacle = choice.failed.obstacle;
      result_.obstacle_subject = choice.failed.subject;
      return std::move(result_);
    }
    risk_ = look_risk(test_, assumptions_);
    const ScatterCandidate& c = *choice.chosen;
    result_.looks_counted = risk_.counted();
    result_.rests_on_stated = choice.rests_on_stated;
    decide(c);
    what_would_show(c, extent);
    circumstances();
    result_.notes = check_measuring(test_, result_.stage, result_.from);
    note_scatter(choice);
    note_looks(c.model);
    if (extent == Extent::whole) {
      skipped_readings();
      outlying();
    }
    if (result_.answers.gained) note(PowerRemark::power_gained);
    if (question_.of == PowerQuestion::Of::both) check_control();
    if (question_.of != PowerQuestion::Of::siblings) check_baseline();
    if (check) check_by(*check, c.model);
    apply_notes();
    if (extent == Extent::whole && stays_open()) {
      result_.settling =
          settle(c.model, c.budget, result_.estimate, result_.limit, risk_.of_next());
    }
    result_.budget = std::move(choice.chosen->budget);
    result_.model = std::move(choice.chosen->model);
    return std::move(result_);
  }

private:
  void note(PowerRemark remark, std::vector<double> numbers = {}, std::string subject = {},
            SourceSpan where = {}) {
    result_.notes.push_back({remark, std::move(numbers), std::move(subject), where});
  }

  void decide(const ScatterCandidate& c) {
    result_.estimate = estimate_of(c, risk_.of_this());
    result_.answers = decide_loss(result_.estimate, result_.limit);
    result_.simple = test_.protocol.decide.simple;
    if (result_.simple) result_.answers.beyond = decide_simply(result_.estimate, result_.limit);
  }

  /// L_D, and where scatter was observed at the ends of its 90 % range, s sqrt(nu / chi2) (M4).
  void what_would_show(const ScatterCandidate& c, Extent extent) {
    const double beta = miss_chance_of(test_, assumptions_);
    std::vector<double> factors{1.0};
    if (extent == Extent::whole && c.model.pooled_sd) {
      const double nu = c.model.observed_dof;
      for (const double p : {0.95, 0.05})
        factors.push_back(std::sqrt(nu / chi_squared_quantile(p, nu)));
    }
    const std::vector<Ratio> shown = smallest_shown_losses(
        c.observed, combine(c.budget, Evaluation::type_b), factors, risk_.of_this(), beta);
    result_.see_chance = Ratio::from_si(1.0 - beta);
    result_.smallest_shown = shown[0];
    if (shown.size() == 3) result_.smallest_shown_range = std::pair(shown[1], shown[2]);
  }

  void circumstances() {
    result_.before = reference_power(test_, result_.from);
    if (const auto days = days_after_shots(test_, result_.stage)) {
      result_.first_day_after_shots = days->first;
      result_.days_after_shots = days->second;
    }
    result_.in_turn = question_.of == PowerQuestion::Of::both && test_.protocol.measure.meters != 2;
  }

  void note_scatter(const ScatterChoice& choice) {
    const PowerModel& model = choice.chosen->model;
    const auto& siblings = model.siblings;
    if (siblings && (siblings->assumed || siblings->units.size() < deciding_siblings)) {
      note(PowerRemark::spread_not_measured, {static_cast<double>(siblings->units.size())});
    }
    if (choice.too_few && !siblings) {
      note(PowerRemark::few_units, {model.observed_dof}, model.unit_is_day ? "day" : "set-up");
    }
    if (choice.stated_below_observed) {
      note(PowerRemark::stated_smaller_than_observed,
           {choice.stated_below_observed->first, choice.stated_below_observed->second});
    }
    if (model.variance_ratio_p && *model.variance_ratio_p > 1.0) {
      note(PowerRemark::variances_differ, {*model.variance_ratio_p});
    }
    if (model.trend) {
      note(PowerRemark::trend_fitted, {choice.chosen->observed.standard_u, model.trend->u_without});
    }
  }

  void note_looks(const PowerModel& model) {
    if (risk_.extended()) {
      note(PowerRemark::extended, {static_cast<double>(risk_.counted()),
                                   static_cast<double>(risk_.planned), risk_.of_this()});
    }
    const auto& planned = test_.protocol.measure.after;
    const auto made = static_cast<int>(model.to.size());
    const bool planned_stage = result_.stage.kind != StageKind::later;
    if (!risk_.seen && planned_stage && planned && made > *planned) {
      note(PowerRemark::more_setups_than_planned,
           {static_cast<double>(made), static_cast<double>(*planned)});
    }
  }

  /// The same question with other readings. What it takes for granted is listed already.
  [[nodiscard]] std::optional<LossEstimate> estimate_with(const PowerQuestion& question) const {
    Assumptions unlisted;
    const ScatterChoice choice = choose_scatter(test_, question, unlisted);
    if (!choice.chosen) return std::nullopt;
    return estimate_of(*choice.chosen, risk_.of_this());
  }

  void skipped_readings() {
    result_.skipped = count_skipped(test_, question_, false);
    if (count_skipped(test_, question_, true) == 0) return;
    PowerQuestion kept = question_;
    kept.keep_skipped = true;
    result_.with_skipped = estimate_with(kept);
  }

  /// Flagged and kept (M9).
  void outlying() {
    PowerQuestion without = question_;
    for (const Outlying& o : outlying_readings(test_, question_)) {
      without.leave_out.push_back(o.reading);
      note(PowerRemark::outlying_reading, {o.deviations, o.bound},
           test_.record.setups[o.setup].name, test_.record.readings[o.reading].origin);
    }
    if (without.leave_out.empty()) return;
    result_.outlying = without.leave_out;
    result_.without_outlying = estimate_with(without);
  }

  /// A control that changed by more than its stated stability allows (M5).
  void check_control() {
    const auto change = estimate_with({question_.from, question_.to, PowerQuestion::Of::control});
    if (!change) return;
    const double stability =
        test_.protocol.measure.control_stability.value_or(defaults::control_stability_u).si();
    // The stability is a standard uncertainty; its bound at the same risk is its normal quantile.
    const double bound = normal_quantile(1.0 - risk_.of_this()) * stability;
    if (std::abs(change->lambda) - change->expanded > bound) {
      note(PowerRemark::control_moved, {std::expm1(change->lambda), bound});
    }
  }

  /// Two blocks of an untouched panel, compared as if there had been shots between them (M5).
  void check_baseline() {
    const StageId baseline{StageKind::baseline, 0};
    if (!has_setups(test_.record, baseline)) return;
    Assumptions unlisted;
    const ScatterChoice choice =
        choose_scatter(test_, stage_question(test_.protocol, baseline, question_.from), unlisted);
    if (!choice.chosen || choice.too_few) return note(PowerRemark::baseline_not_checked);
    BaselineCheck check{choice.chosen->model.units_from,
                        estimate_of(*choice.chosen, risk_.of_this()), false};
    check.moved = std::abs(check.change.lambda) > check.change.expanded;
    if (check.moved) {
      note(PowerRemark::baseline_moved,
           {check.change.loss().si(), check.change.low().si(), check.change.high().si()});
    }
    result_.baseline = check;
  }

  /// First order decides; where random trials would answer otherwise, nobody does (M7). An answer
  /// by the estimate alone does not hang on the interval.
  void check_by(const CheckPlan& plan, const PowerModel& model) {
    result_.check = check_by_trials(model, result_.estimate, result_.limit, plan);
    LossAnswers checking = result_.check->answers;
    if (result_.simple) checking.beyond = result_.answers.beyond;
    if (checking == result_.answers) return;
    result_.answers = agreed(result_.answers, checking);
    note(PowerRemark::methods_disagree, {result_.check->low.si(), result_.check->high.si()});
  }

  void apply_notes() {
    for (const PowerNote& n : result_.notes) {
      const RemarkWeight weight = weight_of(n.remark);
      if (weight == RemarkWeight::no_verdict) result_.decides = false;
      if (weight == RemarkWeight::not_valid) result_.valid = false;
      if (weight == RemarkWeight::blocks_limit) result_.answers.beyond = Answer::undecided;
    }
  }

  /// The limit is undecided because the interval holds it, and for no other reason.
  [[nodiscard]] bool stays_open() const {
    const bool blocked =
        std::any_of(result_.notes.begin(), result_.notes.end(), [](const PowerNote& n) {
          return weight_of(n.remark) == RemarkWeight::blocks_limit;
        });
    return result_.usable() && !result_.simple && !blocked &&
           decide_loss(result_.estimate, result_.limit).beyond == Answer::undecided;
  }

  const Test& test_;
  Assumptions& assumptions_;
  PowerQuestion question_;
  LookRisk risk_;
  PowerResult result_;
};

}  // namespace

RemarkWeight weight_of(PowerRemark remark) {
  switch (remark) {
  case PowerRemark::fixed_load:
  case PowerRemark::battery_full:
  case PowerRemark::few_units:
  case PowerRemark::spread_not_measured:
  case PowerRemark::display_too_coarse:
  case PowerRemark::sun_display_too_coarse:
    return RemarkWeight::no_verdict;
  case PowerRemark::power_gained:
  case PowerRemark::control_moved:
  case PowerRemark::baseline_moved:
    return RemarkWeight::not_valid;
  case PowerRemark::not_following_sun:
    return RemarkWeight::blocks_limit;
  case PowerRemark::not_stated:
  case PowerRemark::battery_not_stated:
  case PowerRemark::baseline_not_checked:
  case PowerRemark::other_instrument:
  case PowerRemark::tools_not_said:
  case PowerRemark::trend_fitted:
    return RemarkWeight::note;
  case PowerRemark::low_irradiance:
  case PowerRemark::irradiance_differs:
  case PowerRemark::unsteady_irradiance:
  case PowerRemark::unsteady_temperature:
  case PowerRemark::temperature_differs:
  case PowerRemark::incidence_large:
  case PowerRemark::incidence_changed:
  case PowerRemark::short_time_in_sun:
  case PowerRemark::not_clean:
  case PowerRemark::other_leads:
  case PowerRemark::not_pre_exposed:
  case PowerRemark::soon_after_shots:
  case PowerRemark::variances_differ:
  case PowerRemark::stated_smaller_than_observed:
  case PowerRemark::outlying_reading:
  case PowerRemark::extended:
  case PowerRemark::more_setups_than_planned:
  // What differs is undecided already; the other answers hold.
  case PowerRemark::methods_disagree:
    return RemarkWeight::warning;
  }
  fail_contract("unknown remark");
}

PowerResult judge_power(const Test& test, StageId stage, Assumptions& assumptions,
                        const std::optional<CheckPlan>& check, StageId from, Extent extent) {
  return PowerJudge(test, stage, from, assumptions).judge(check, extent);
}

}  // namespace hailwright
