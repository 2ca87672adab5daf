#pragma once

#include <optional>
#include <string>
#include <vector>

#include "hailwright/evaluate/power_model.hpp"
#include "hailwright/metrology/loss_decision.hpp"

namespace hailwright {

/// What speaks about a power comparison beside its numbers. Sentences are made in report; the
/// numbers of each kind are named here.
enum class PowerRemark {
  // no electrical verdict
  fixed_load,    ///< the load does not seek maximum power
  battery_full,  ///< numbers: fullest state of charge; subject: set-up
  few_units,     ///< numbers: degrees of freedom, below 4; subject: "set-up" or "day"
  // not valid (M5)
  power_gained,    ///< the loss is below zero by more than its uncertainty
  control_moved,   ///< numbers: change of the control, its bound
  baseline_moved,  ///< numbers: change, low, high
  // no answer to "beyond"
  not_following_sun,  ///< numbers: slope of ln P on ln G; subject: stage
  // warnings
  low_irradiance,        ///< numbers: lowest W/m2, bound
  irradiance_differs,    ///< numbers: mean before, mean after W/m2
  unsteady_irradiance,   ///< numbers: spread as a share, bound; subject: set-up
  unsteady_temperature,  ///< numbers: spread in K, bound; subject: set-up
  temperature_differs,   ///< numbers: difference of the cell temperatures in K, bound
  incidence_large,       ///< numbers: deg, bound
  incidence_changed,     ///< numbers: deg, bound
  short_time_in_sun,     ///< numbers: min, bound
  not_clean,
  other_leads,
  not_pre_exposed,
  soon_after_shots,      ///< numbers: min, bound
  not_stated,            ///< subject: the condition
  battery_not_stated,    ///< subject: set-ups for which it is not known whether the load took all
  baseline_not_checked,  ///< too few set-ups to compare the baseline with `before`
  variances_differ,      ///< numbers: F ratio over its 97.5 % point
  other_instrument,      ///< subject: the tool
  stated_smaller_than_observed,  ///< numbers: stated u, observed u
};

enum class RemarkWeight { note, warning, blocks_limit, not_valid, no_verdict };
RemarkWeight weight_of(PowerRemark remark);

struct PowerNote {
  PowerRemark remark;
  std::vector<double> numbers;
  std::string subject;
  SourceSpan where;
};

/// What one stage says about the power, compared with `before`.
struct PowerResult {
  StageId stage;
  PowerObstacle obstacle = PowerObstacle::none;
  std::string obstacle_subject;
  // All below needs obstacle == none.
  std::optional<PowerModel> model;
  std::vector<BudgetRow> budget;
  LossEstimate estimate;
  LossAnswers answers;
  Ratio limit;
  bool decides = true;           ///< false: the interval is printed, no answer is drawn from it
  bool valid = true;             ///< false: a check of M5 failed
  bool rests_on_stated = false;  ///< on stated set-up components, not on repeats
  std::optional<ReferencePower> before;
  Ratio see_chance;      ///< 1 - beta of the protocol
  Ratio smallest_shown;  ///< L_D at the protocol's risk and chance
  std::optional<std::pair<Ratio, Ratio>>
      smallest_shown_range;                  ///< 90 %, where scatter was observed
  std::optional<LossEstimate> with_skipped;  ///< the same with the skipped readings kept
  int skipped = 0;
  std::optional<int> days_after_shots;  ///< from the record's day to the stage's last set-up
  bool in_turn = false;                 ///< two panels read one after the other with one meter
  std::vector<PowerNote> notes;

  [[nodiscard]] bool estimated() const { return obstacle == PowerObstacle::none; }
  /// The power question has an answer that counts.
  [[nodiscard]] bool usable() const { return estimated() && decides && valid; }
  [[nodiscard]] bool is_beyond() const { return usable() && answers.beyond == Answer::yes; }
  [[nodiscard]] bool is_within() const { return usable() && answers.beyond == Answer::no; }
  [[nodiscard]] bool is_real() const { return usable() && answers.real == Answer::yes; }
};

/// Judges one stage against `before` by the protocol's comparison, limit and risk.
PowerResult judge_power(const Test& test, StageId stage, Assumptions& assumptions);

}  // namespace hailwright
