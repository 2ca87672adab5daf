#pragma once

#include <array>
#include <optional>
#include <string>
#include <vector>

#include "hailwright/core/quantity.hpp"
#include "hailwright/evaluate/defaults.hpp"
#include "hailwright/evaluate/power_model.hpp"
#include "hailwright/metrology/budget.hpp"
#include "hailwright/model/panel.hpp"
#include "hailwright/model/protocol.hpp"
#include "hailwright/plan/planned_units.hpp"

namespace hailwright {

/// What a measurement with these numbers of set-ups and siblings will be able to tell.
struct MeasuringOutlook {
  PlannedUnits units;
  PowerObstacle obstacle = PowerObstacle::none;  ///< why `judge` would give no interval at all
  std::string obstacle_subject;
  // All below needs obstacle == none.
  bool decides = true;           ///< false: too few for any decision (M2)
  bool rests_on_stated = false;  ///< on the stated components of the set-up scatter, not on repeats
  double observed_dof = 0.0;     ///< nu_A of the set-ups, or of the siblings
  Ratio standard_u;              ///< u of the loss, about a loss of zero
  Ratio half_width;              ///< of the interval of the loss, about a loss of zero
  Ratio real_above;              ///< L_C
  /// L_D at the protocol's chance. Where the measurement decides nothing, what it would be if it
  /// did.
  Ratio smallest_shown;
  /// A true loss that is called above the limit with that chance.
  Ratio called_above_limit;
  /// To call a true loss of `see` (or of the limit) real; 0 when it decides nothing.
  double chance_at_claim = 0.0;
  /// To show "no loss greater than the limit" when there is none; 0 when it decides nothing.
  double chance_within = 0.0;

  [[nodiscard]] bool estimated() const { return obstacle == PowerObstacle::none; }
  [[nodiscard]] bool usable() const { return estimated() && decides; }
};

/// What a forecast says beside its numbers. Sentences are made in report.
enum class ForecastFact {
  before_cannot_be_added,  ///< once the panel is struck, that stage is over
  no_reading_before,       ///< of siblings: they stand for what the struck panel gave before
  added_at_less_risk,      ///< always: set-ups added after seeing the result, `risk_if_added` (M6)
  setups_not_planned,      ///< the protocol leaves a number of set-ups out: a proposed one is taken
  siblings_not_planned,    ///< the same of the siblings
  too_few_to_decide,       ///< nu_A below 4 and no stated components, or fewer than 3 siblings (M2)
  rests_on_stated,         ///< the answer will rest on the stated components of the scatter
  claim_needs_more,        ///< more than planned for the claim: `needed`
  claim_out_of_reach,      ///< no number up to the most that is tried gives the claim
  line_fitted,             ///< `trend: fitted`, at the hours that are imagined
  limit_by_estimate,       ///< `rule: simple`, and what that risks (M4)
  scatter_tried,           ///< the scatter is a tried one: three baseline set-ups would tell it
  scatter_taken,           ///< of siblings: the middle one of those usually tried
  spread_by_tolerance,     ///< the siblings are taken to spread as the maker's tolerance allows
  spread_tried,            ///< how far they spread is a tried figure
  components_incomplete,   ///< `setup_scatter` leaves a step out; subject in `components_lack`
  redone_not_stated,       ///< `judge` needs to know what each set-up redid; all is taken here
  fixed_load               ///< no electrical verdict from a load that does not seek the maximum
};

/// A change of the plan, and what it would do to the smallest loss shown.
enum class MeasuringChange {
  // what helps
  control_panel,       ///< an unstruck panel beside it, its drift and sky as the defaults have them
  read_before,         ///< no siblings: the struck panel compared with itself before
  read_before_beside,  ///< the same beside one unstruck unit as a control panel
  no_trend,            ///< no line in time fitted
  three_days,          ///< set-ups of each stage spread over three days, three at least
  more_siblings,       ///< twice as many, three at least
  one_meter,           ///< siblings read in turn with the power meter of the struck panel
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
  MeasuringChange change{};
  Ratio now;
  Ratio then;
};

/// The forecast for one panel and one assumed scatter.
struct MeasuringForecast {
  Ratio scatter;                ///< standard deviation of the set-ups that it rests on
  bool scatter_stated = false;  ///< by the protocol
  /// Standard deviation from unit to unit of the model, where siblings are compared with.
  std::optional<Ratio> spread;
  bool spread_stated = false;      ///< by the protocol's `unit_tolerance`
  int looks = 1;                   ///< planned looks at the result
  double risk = 0.0;               ///< alpha of each of them
  double risk_if_added = 0.0;      ///< alpha of a look after set-ups that nobody planned
  bool limit_by_estimate = false;  ///< `rule: simple`
  Ratio claim;                     ///< `see`, or the limit
  double claim_chance = 0.0;       ///< how often that loss should show
  int fewest_setups = 0;           ///< a stage, that decide by themselves
  MeasuringOutlook planned;        ///< with the protocol's numbers
  /// With the proposed numbers at least, where the planned ones decide nothing.
  std::optional<MeasuringOutlook> proposed;
  /// 2 + 2, 3 + 3, ... 12 + 12 set-ups for the curve; or 3, 4, ... 12 siblings.
  std::vector<MeasuringOutlook> curve;
  std::vector<BudgetLine> budget;  ///< at the numbers of `best`, largest first
  /// Fewest set-ups a stage, or siblings, with which a loss of `see` (or the limit) is shown with
  /// the chance asked for; nothing when no number up to the most that is tried does.
  std::optional<int> needed;
  Ratio floor;  ///< L_D with endless set-ups, or siblings: what those cannot lower
  std::vector<ForecastFact> facts;
  std::string components_lack;          ///< the step that `setup_scatter` leaves out
  std::vector<MeasuringAdvice> helps;   ///< what lowers L_D by a fiftieth or more, most first
  std::vector<MeasuringAdvice> spoils;  ///< what raises it by a fiftieth or more, most first

  /// The planned numbers, or the proposed ones where the planned decide nothing.
  [[nodiscard]] const MeasuringOutlook& best() const { return proposed ? *proposed : planned; }
  [[nodiscard]] bool has(ForecastFact fact) const;
  /// Whether what it rests on most is one of several tried figures.
  [[nodiscard]] bool tried() const { return spread ? !spread_stated : !scatter_stated; }
};

/// Set-ups a stage up to which `needed` is looked for [ours]: 42 hours a stage at 25 min each.
inline constexpr int most_setups = 100;
/// Siblings up to which it is looked for [ours]: more than anybody buys for a test.
inline constexpr int most_siblings = 30;
/// Scatters tried when nobody states one [ours]: careful, usual and careless mounting by hand.
inline constexpr std::array tried_scatters{percent(0.3), percent(0.6), percent(1.0)};
/// Spreads from unit to unit tried when nobody states a tolerance [ours]: units that were sorted
/// closely, as usual, and hardly.
inline constexpr std::array tried_spreads{percent(0.5), percent(1.0), percent(2.0)};
/// How far apart the panels' temperatures may lie without a warning (MEASUREMENT M9).
inline constexpr TemperatureDifference forecast_apart = TemperatureDifference::from_si(10.0);

/// Builds the forecast by the model that `judge` uses, on readings that are exact and alike at
/// 900 W/m2 and 45 degC, with the planned numbers of set-ups, readings and instruments, each stage
/// on one day. Defaults used are noted in `assumptions`.
/// One entry when the protocol states `expected_scatter` or a whole `setup_scatter`; else one for
/// each of `tried_scatters`. With siblings one entry when it states `unit_tolerance`, whose
/// rectangular distribution gives the spread; else one for each of `tried_spreads`. Empty when the
/// protocol judges by looks alone.
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
