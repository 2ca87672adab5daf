#pragma once

#include <optional>
#include <string>
#include <vector>

#include "hailwright/core/quantity.hpp"
#include "hailwright/evaluate/defaults.hpp"
#include "hailwright/evaluate/power_model.hpp"
#include "hailwright/metrology/budget.hpp"
#include "hailwright/model/panel.hpp"
#include "hailwright/model/protocol.hpp"

namespace hailwright {

/// What a measurement with these numbers of set-ups will be able to tell.
struct MeasuringOutlook {
  int before = 0, after = 0;
  PowerObstacle obstacle = PowerObstacle::none;  ///< why `judge` would give no interval at all
  std::string obstacle_subject;
  // All below needs obstacle == none.
  bool decides = true;           ///< false: too few set-ups for any decision (M2)
  bool rests_on_stated = false;  ///< on the stated components of the set-up scatter, not on repeats
  double observed_dof = 0.0;     ///< nu_A of the set-ups
  Ratio standard_u;              ///< u of the loss, about a loss of zero
  Ratio half_width;              ///< of the interval of the loss, about a loss of zero
  Ratio real_above;              ///< L_C
  /// L_D at the protocol's chance. Where the measurement decides nothing, what it would be if it
  /// did.
  Ratio smallest_shown;
  /// To call a true loss of `see` (or of the limit) real; 0 when it decides nothing.
  double chance_at_claim = 0.0;
  /// To show "no loss greater than the limit" when there is none; 0 when it decides nothing.
  double chance_within = 0.0;

  [[nodiscard]] bool estimated() const { return obstacle == PowerObstacle::none; }
  [[nodiscard]] bool usable() const { return estimated() && decides; }
};

/// What a forecast says beside its numbers. Sentences are made in report.
enum class ForecastFact {
  before_cannot_be_added,  ///< always: once the panel is struck, that stage is over
  setups_not_planned,      ///< the protocol leaves a number of set-ups out: `proposed_setups` taken
  too_few_to_decide,       ///< nu_A below 4 and no stated components: no decision (M2)
  rests_on_stated,         ///< the answer will rest on the stated components of the scatter
  claim_needs_more,        ///< more set-ups than planned for the claim: `needed`
  claim_out_of_reach,      ///< no number up to `most_setups` gives the claim
  scatter_tried,           ///< the scatter is a tried one: three baseline set-ups would tell it
  components_incomplete,   ///< `setup_scatter` leaves a step out; subject in `components_lack`
  redone_not_stated,       ///< `judge` needs to know what each set-up redid; all is taken here
  fixed_load               ///< no electrical verdict from a load that does not seek the maximum
};

/// A change of the plan, and what it would do to the smallest loss shown.
enum class MeasuringChange {
  // what helps
  control_panel,       ///< an unstruck panel beside it, its drift and sky as the defaults have them
  three_days,          ///< set-ups of each stage spread over three days, three at least
  more_setups,         ///< twice as many of each stage, three at least
  better_meter,        ///< half the error of the power meter
  better_sun_meter,    ///< half the error of the sun meter
  better_thermometer,  ///< half its errors; reckoned at `apart`
  tell_coefficient,    ///< the coefficient of the data sheet; reckoned at `apart`
  tell_day,            ///< half the default, where that is taken: only who knows it can state it
  tell_drift,          ///< half the default of the panel's drift, or of the control's stability
  // what to keep from
  other_instruments,  ///< another meter, sun meter and thermometer after the shots
  warmer_after        ///< panels `apart` warmer after the shots
};

/// One change with L_D without it and with it, at the numbers of `MeasuringForecast::best`.
struct MeasuringAdvice {
  MeasuringChange change;
  Ratio now;
  Ratio then;
};

/// The forecast for one panel and one assumed scatter from set-up to set-up.
struct MeasuringForecast {
  Ratio scatter;                ///< standard deviation of the set-ups that it rests on
  bool scatter_stated = false;  ///< by the protocol; else one of several tried ones
  int looks = 1;                ///< planned looks at the result
  double risk = 0.0;            ///< alpha of each of them
  Ratio claim;                  ///< `see`, or the limit
  double claim_chance = 0.0;    ///< how often that loss should show
  MeasuringOutlook planned;     ///< with the protocol's numbers
  /// With three set-ups a stage or more, where the planned numbers decide nothing.
  std::optional<MeasuringOutlook> proposed;
  std::vector<MeasuringOutlook> by_setups;  ///< 2 + 2, 3 + 3, ... 12 + 12 for the curve
  std::vector<BudgetLine> budget;           ///< at the numbers of `best`, largest first
  /// Fewest set-ups a stage with which a loss of `see` (or the limit) is shown with the chance
  /// asked for; nothing when no number up to `most_setups` does.
  std::optional<int> needed;
  Ratio floor;  ///< L_D with endless set-ups: what type B alone leaves
  std::vector<ForecastFact> facts;
  std::string components_lack;          ///< the step that `setup_scatter` leaves out
  std::vector<MeasuringAdvice> helps;   ///< what lowers L_D by a fiftieth or more, most first
  std::vector<MeasuringAdvice> spoils;  ///< what raises it by a fiftieth or more, most first

  /// The planned numbers, or the proposed ones where the planned decide nothing.
  [[nodiscard]] const MeasuringOutlook& best() const { return proposed ? *proposed : planned; }
  [[nodiscard]] bool has(ForecastFact fact) const;
};

/// Set-ups a stage that the plan proposes: the fewest that decide by themselves (MEASUREMENT M6).
inline constexpr int proposed_setups = 3;
/// Set-ups a stage up to which `needed` is looked for [ours]: 42 hours a stage at 25 min each.
inline constexpr int most_setups = 100;
/// Scatters tried when nobody states one [ours]: careful, usual and careless mounting by hand.
inline constexpr Ratio tried_scatters[] = {percent(0.3), percent(0.6), percent(1.0)};
/// How far apart the panels' temperatures may lie without a warning (MEASUREMENT M9).
inline constexpr TemperatureDifference forecast_apart = TemperatureDifference::from_si(10.0);

/// Builds the forecast by the model that `judge` uses, on readings that are exact and alike at
/// 900 W/m2 and 45 degC, with the planned numbers of set-ups, readings and instruments, each stage
/// on one day. Defaults used are noted in `assumptions`.
/// One entry when the protocol states `expected_scatter` or a whole `setup_scatter`; else one for
/// each of `tried_scatters`. Empty when the protocol judges by looks alone.
/// @param control  the control panel; nullptr: of the struck panel's model
std::vector<MeasuringForecast> forecast_measuring(const Protocol& protocol, const Panel& panel,
                                                  Assumptions& assumptions,
                                                  const Panel* control = nullptr);

/// Fewest set-ups a stage for a two-sample t with pooled scatter alone, one-sided at `alpha`, that
/// shows a difference of `effect` standard deviations with `chance`. Two at least: one has no
/// scatter. Requires effect >= 0.001, 0 < alpha < 0.5, 0 < chance < 1.
/// Source: power of the two-sample t test by the non-central t, as power.t.test of R computes it.
int setups_needed(double effect, double alpha, double chance);

}  // namespace hailwright
