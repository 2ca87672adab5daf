#pragma once

#include <cstdint>
#include <functional>
#include <optional>
#include <string>
#include <vector>

#include "hailwright/evaluate/extent.hpp"
#include "hailwright/evaluate/power_model.hpp"
#include "hailwright/metrology/loss_decision.hpp"

namespace hailwright {

/// What speaks about a power comparison beside its numbers. Sentences are made in report; the
/// numbers of each kind are named here.
enum class PowerRemark {
  // no electrical verdict
  fixed_load,           ///< the load does not seek maximum power
  battery_full,         ///< numbers: fullest state of charge; subject: set-up
  few_units,            ///< numbers: degrees of freedom, below 4; subject: "set-up" or "day"
  spread_not_measured,  ///< numbers: unstruck units measured; three or more decide
  display_too_coarse,   ///< numbers: step of the display, mean power [W]; subject: none for the
                        ///< struck panel, "control", "unit B"
  sun_display_too_coarse,  ///< numbers: step of the display, mean irradiance [W/m2]
  // not valid (M5)
  power_gained,    ///< the loss is below zero by more than its uncertainty
  control_moved,   ///< numbers: change of the control, its bound
  baseline_moved,  ///< numbers: change, low, high
  // undecided where the two methods do not agree (M7)
  methods_disagree,  ///< numbers: low and high by random trials
  // no answer to "beyond"
  not_following_sun,  ///< numbers: slope of ln P on ln G; subject: "panel", "control", "unit B"
  // warnings
  low_irradiance,      ///< numbers: lowest W/m2, bound
  irradiance_differs,  ///< numbers: means in W/m2 before, after; subject "siblings": struck, theirs
  unsteady_irradiance,   ///< numbers: spread as a share, bound; subject: set-up
  unsteady_temperature,  ///< numbers: spread in K, bound; subject: set-up
  temperature_differs,   ///< numbers: difference of the cell temperatures in K, bound; subject as
                         ///< above
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
  tools_not_said,    ///< subject: tools not said to be the same: taken as others of their kind
  outlying_reading,  ///< numbers: standard deviations off, bound; subject: set-up; kept
  extended,          ///< numbers: looks taken, looks planned, risk of each; seen before adding
  more_setups_than_planned,  ///< numbers: set-ups after, planned
  trend_fitted,              ///< numbers: u_A with the line, without it
};

enum class RemarkWeight { note, warning, blocks_limit, not_valid, no_verdict };
RemarkWeight weight_of(PowerRemark remark);

struct PowerNote {
  PowerRemark remark;
  std::vector<double> numbers;
  std::string subject;
  SourceSpan where;
};

/// Random trials over the same model (JCGM 101), beside the first-order interval that decides.
struct MonteCarloCheck {
  std::int64_t trials = 0;
  std::uint64_t seed = 0;
  bool adaptive = false;
  bool capped = false;  ///< the most trials allowed were made before the stop rule was met
  Ratio median;
  std::optional<Ratio> mean, standard_u;  ///< none where the scatter has 2 degrees of freedom or 1
  Ratio low, high;                        ///< probabilistically symmetric, at level 1 - 2 alpha
  std::optional<std::pair<Ratio, Ratio>> shortest;  ///< when asked for
  double above_zero = 0.0, above_limit = 0.0;       ///< shares of the trials
  /// Digits of the standard uncertainty, 2, 1 or 0, at which both ends of the first-order interval
  /// agree with these within the numerical tolerance (JCGM 101:2008, clause 8).
  int agreed_digits = 0;
  LossAnswers answers;
  bool disagrees = false;  ///< an answer of M4 would be another one
};

/// How many trials a judgement is checked by.
struct CheckPlan {
  std::uint64_t seed = 1;
  std::int64_t trials = 1'000'000;  ///< with `adaptive` the most, 10^7 unless told otherwise
  bool adaptive = false;            ///< until the result is stable (JCGM 101:2008, 7.9.4)
  bool shortest = false;
  int threads = 1;
  /// Called now and then from the calling thread with the trials done and the most.
  std::function<void(std::int64_t, std::int64_t)> progress{};
};

/// What would settle an undecided limit: further set-ups after the shots (M6).
struct Settling {
  /// Further `after` set-ups (days, where those are the unit) for P(decided) >= 0.80 if the loss is
  /// as estimated, and if it lies one standard uncertainty nearer to the limit, and further from
  /// it. Nothing: no number up to `most_further_setups` does.
  std::optional<int> as_estimated, nearer, further;
  double chance = 0.0;  ///< P(decided) with so many as estimated, or with the most
  bool never = false;   ///< what set-ups cannot shrink exceeds the margin
  /// Where they never do: those on further days would shrink the sky of the days after the shots,
  /// and could.
  bool other_days = false;
  Ratio floor;         ///< from the loss to its interval's end on that side, with endless set-ups
  Ratio margin;        ///< from the estimated loss, none if it is below zero, to the limit
  double alpha = 0.0;  ///< risk of the look that would follow
};
inline constexpr int most_further_setups = 1000;

/// Two blocks of the untouched panel compared as if there had been shots between them (M5).
struct BaselineCheck {
  int units = 0;  ///< set-ups (or days) of the baseline
  LossEstimate change;
  bool moved = false;
};

/// What one stage says about the power, compared with `before` or a later stage.
struct PowerResult {
  StageId stage;
  StageId from{};  ///< the stage that it is compared with
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
  std::vector<std::size_t> outlying;  ///< flagged and kept: indices into Record::readings
  std::optional<LossEstimate> without_outlying;  ///< the same with them left out
  std::optional<BaselineCheck> baseline;
  std::optional<MonteCarloCheck> check;
  std::optional<Settling> settling;  ///< where the interval leaves the limit undecided
  bool simple = false;               ///< the limit was answered by the estimate alone (M4)
  int looks_counted = 1;             ///< looks that the risk was divided by
  /// From the record's day to the struck panel's first and last set-up of the stage.
  std::optional<int> first_day_after_shots, days_after_shots;
  bool in_turn = false;  ///< two panels read one after the other with one meter
  std::vector<PowerNote> notes;

  [[nodiscard]] bool estimated() const { return obstacle == PowerObstacle::none; }
  /// The power question has an answer that counts.
  [[nodiscard]] bool usable() const { return estimated() && decides && valid; }
  [[nodiscard]] bool is_beyond() const { return usable() && answers.beyond == Answer::yes; }
  [[nodiscard]] bool is_within() const { return usable() && answers.beyond == Answer::no; }
  [[nodiscard]] bool is_real() const { return usable() && answers.real == Answer::yes; }
};

/// Judges one stage against another by the protocol's comparison, limit and risk.
/// @param check  how many random trials to check by; nothing: none
/// @param from   an earlier stage of the record
PowerResult judge_power(const Test& test, StageId stage, Assumptions& assumptions,
                        const std::optional<CheckPlan>& check = std::nullopt,
                        StageId from = {StageKind::before, 0}, Extent extent = Extent::whole);

}  // namespace hailwright
