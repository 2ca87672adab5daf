#include "hailwright/evaluate/power.hpp"

#include <algorithm>
#include <charconv>
#include <chrono>
#include <cmath>

#include "evaluate/measuring_gates.hpp"
#include "evaluate/scatter_choice.hpp"
#include "hailwright/core/contract.hpp"
#include "hailwright/metrology/distributions.hpp"

namespace hailwright {

namespace {

/// The risk of one look: all planned looks count, taken or not, and share it (MEASUREMENT M6).
double risk_of(const Test& test, Assumptions& assumptions) {
  const DecisionRule& decide = test.protocol.decide;
  if (!decide.risk) assumptions.use(DefaultId::risk);
  return decide.risk.value_or(defaults::risk).si() / decide.looks;
}

double miss_chance_of(const Test& test, Assumptions& assumptions) {
  if (test.protocol.decide.see_chance) return 1.0 - test.protocol.decide.see_chance->si();
  assumptions.use(DefaultId::see_chance);
  return 1.0 - defaults::see_chance.si();
}

/// L_D with the scatter at the two ends of its 90 % range, s sqrt(nu / chi2).
std::optional<std::pair<Ratio, Ratio>> shown_range(const ScatterCandidate& c, double alpha,
                                                   double beta) {
  if (!c.model.pooled_sd) return std::nullopt;
  const double nu = c.model.observed_dof;
  const auto scaled = [&](double p) {
    const double factor = std::sqrt(nu / chi_squared_quantile(p, nu));
    std::vector<BudgetRow> rows = c.budget;
    for (BudgetRow& row : rows) {
      if (row.input.evaluation == Evaluation::type_a) row.input.standard_u *= factor;
    }
    return smallest_shown_loss(combine(rows), combine(rows, Evaluation::type_a), alpha, beta);
  };
  return std::pair(scaled(0.95), scaled(0.05));
}

/// Skipped readings of the earlier and of this stage, all or only those that have values.
int count_skipped(const Test& test, StageId stage, bool only_measured) {
  return static_cast<int>(std::count_if(
      test.record.readings.begin(), test.record.readings.end(), [&](const Reading& r) {
        const StageId s = test.record.setups[r.setup].stage;
        return !r.skip.empty() && (r.measured || !only_measured) &&
               (s == stage || s.kind == StageKind::before);
      }));
}

/// A control that changed by more than its stated stability allows (M5).
void check_control(const Test& test, PowerResult& result, double alpha) {
  if (test.protocol.measure.compare != Comparison::control_panel) return;
  Assumptions unlisted;
  const PowerQuestion alone{
      {StageKind::before, 0}, result.stage, PowerQuestion::Of::control, false};
  ScatterChoice choice = choose_scatter(test, alone, unlisted);
  if (!choice.chosen) return;
  const LossEstimate change = estimate_loss(choice.chosen->model.lambda(), choice.chosen->all,
                                            choice.chosen->observed, alpha);
  const double stability = test.protocol.measure.control_stability
                               ? test.protocol.measure.control_stability->si()
                               : defaults::control_stability_u.si();
  // The stability is a standard uncertainty; its bound at the same risk is its normal quantile.
  const double bound = normal_quantile(1.0 - alpha) * stability;
  if (std::abs(change.lambda) - change.expanded > bound) {
    result.notes.push_back(
        {PowerRemark::control_moved, {std::expm1(change.lambda), bound}, {}, {}});
  }
}

/// Two blocks of an untouched panel, compared as if there had been shots between them (M5).
void check_baseline(const Test& test, PowerResult& result, double alpha) {
  const StageId baseline{StageKind::baseline, 0};
  const bool any = std::any_of(test.record.setups.begin(), test.record.setups.end(),
                               [&](const Setup& s) { return s.stage == baseline; });
  if (!any) return;
  Assumptions unlisted;
  ScatterChoice choice = choose_scatter(
      test, stage_question(test.protocol, baseline, {StageKind::before, 0}), unlisted);
  if (!choice.chosen || choice.too_few) {
    result.notes.push_back({PowerRemark::baseline_not_checked, {}, {}, {}});
    return;
  }
  const LossEstimate e = estimate_loss(choice.chosen->model.lambda(), choice.chosen->all,
                                       choice.chosen->observed, alpha);
  if (std::abs(e.lambda) > e.expanded) {
    result.notes.push_back(
        {PowerRemark::baseline_moved, {e.loss().si(), e.low().si(), e.high().si()}, {}, {}});
  }
}

std::optional<std::chrono::sys_days> day_of(const std::string& iso_date) {
  int y = 0;
  unsigned m = 0;
  unsigned d = 0;
  const char* begin = iso_date.data();
  if (iso_date.size() != 10) return std::nullopt;
  const bool read = std::from_chars(begin, begin + 4, y).ptr == begin + 4 &&
                    std::from_chars(begin + 5, begin + 7, m).ptr == begin + 7 &&
                    std::from_chars(begin + 8, begin + 10, d).ptr == begin + 10;
  const std::chrono::year_month_day date{std::chrono::year(y), std::chrono::month(m),
                                         std::chrono::day(d)};
  if (!read || !date.ok()) return std::nullopt;
  return std::chrono::sys_days(date);
}

std::optional<int> days_after_shots(const Test& test, StageId stage) {
  const auto shots = day_of(test.record.date);
  std::optional<int> latest;
  for (const Setup& s : test.record.setups) {
    const auto day = day_of(s.date);
    if (!(s.stage == stage) || !day || !shots) continue;
    const int days = static_cast<int>((*day - *shots).count());
    latest = std::max(latest.value_or(days), days);
  }
  return latest;
}

void apply_notes(PowerResult& result) {
  for (const PowerNote& note : result.notes) {
    switch (weight_of(note.remark)) {
    case RemarkWeight::no_verdict:
      result.decides = false;
      break;
    case RemarkWeight::not_valid:
      result.valid = false;
      break;
    case RemarkWeight::blocks_limit:
      result.answers.beyond = Answer::undecided;
      break;
    case RemarkWeight::warning:
    case RemarkWeight::note:
      break;
    }
  }
}

}  // namespace

RemarkWeight weight_of(PowerRemark remark) {
  switch (remark) {
  case PowerRemark::fixed_load:
  case PowerRemark::battery_full:
  case PowerRemark::few_units:
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
    return RemarkWeight::warning;
  }
  fail_contract("unknown remark");
}

PowerResult judge_power(const Test& test, StageId stage, Assumptions& assumptions) {
  PowerResult result;
  result.stage = stage;
  result.limit = test.protocol.decide.limit;
  PowerQuestion question = stage_question(test.protocol, {StageKind::before, 0}, stage);
  ScatterChoice choice = choose_scatter(test, question, assumptions);
  if (!choice.chosen) {
    result.obstacle = choice.failed.obstacle;
    result.obstacle_subject = choice.failed.subject;
    return result;
  }
  const double alpha = risk_of(test, assumptions);
  const double beta = miss_chance_of(test, assumptions);
  result.see_chance = Ratio::from_si(1.0 - beta);
  ScatterCandidate& c = *choice.chosen;
  result.estimate = estimate_loss(c.model.lambda(), c.all, c.observed, alpha);
  result.answers = decide_loss(result.estimate, result.limit);
  result.rests_on_stated = choice.rests_on_stated;
  result.before = reference_power(test, {StageKind::before, 0});
  result.smallest_shown = smallest_shown_loss(c.all, c.observed, alpha, beta);
  result.smallest_shown_range = shown_range(c, alpha, beta);
  result.skipped = count_skipped(test, stage, false);
  result.days_after_shots = days_after_shots(test, stage);
  result.in_turn = question.of == PowerQuestion::Of::both && test.protocol.measure.meters != 2;
  if (count_skipped(test, stage, true) > 0) {
    question.keep_skipped = true;
    Assumptions unlisted;
    ScatterChoice kept = choose_scatter(test, question, unlisted);
    if (kept.chosen) {
      result.with_skipped = estimate_loss(kept.chosen->model.lambda(), kept.chosen->all,
                                          kept.chosen->observed, alpha);
    }
  }
  result.notes = check_measuring(test, stage);
  if (choice.too_few) {
    result.notes.push_back({PowerRemark::few_units,
                            {c.model.observed_dof},
                            c.model.unit_is_day ? "day" : "set-up",
                            {}});
  }
  if (choice.stated_below_observed) {
    result.notes.push_back(
        {PowerRemark::stated_smaller_than_observed,
         {choice.stated_below_observed->first, choice.stated_below_observed->second},
         {},
         {}});
  }
  if (c.model.variance_ratio_p && *c.model.variance_ratio_p > 1.0) {
    result.notes.push_back({PowerRemark::variances_differ, {*c.model.variance_ratio_p}, {}, {}});
  }
  if (result.answers.gained) result.notes.push_back({PowerRemark::power_gained, {}, {}, {}});
  check_control(test, result, alpha);
  check_baseline(test, result, alpha);
  apply_notes(result);
  result.budget = std::move(c.budget);
  result.model = std::move(c.model);
  return result;
}

}  // namespace hailwright
