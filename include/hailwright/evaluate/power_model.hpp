#pragma once

#include <optional>
#include <string>
#include <utility>
#include <vector>

#include "hailwright/evaluate/defaults.hpp"
#include "hailwright/metrology/budget.hpp"
#include "hailwright/model/record.hpp"
#include "hailwright/physics/normalised_power.hpp"

namespace hailwright {

/// What is compared with what.
struct PowerQuestion {
  StageId from;  ///< nearly always `before`; for siblings the stage itself
  StageId to;
  /// struck: the panel against itself; both: struck minus control; control: the control against
  /// itself, to see whether it stood still; siblings: struck minus unstruck units, in stage `to`.
  enum class Of { struck, control, both, siblings } of = Of::struck;
  bool keep_skipped = false;             ///< read the skipped readings too, where they have values
  std::vector<std::size_t> leave_out{};  ///< indices into Record::readings, such as outlying ones
};

/// Where the scatter of the set-ups comes from.
enum class ScatterSource {
  observed,  ///< repeats of the outermost level truly repeated
  stated     ///< components that the protocol states; readings give their own scatter only
};

/// The value of one set-up with its number of readings that count.
struct SetupValue {
  std::size_t setup = 0;  ///< index into Record::setups
  double q = 0.0;    ///< mean of ln(normalised power in W), or of its difference to the control
  int readings = 0;  ///< or rounds
  std::optional<double> reading_sd;  ///< of single readings (or rounds); nothing for one
  /// Steady drift of q that was taken out between panels read in turn (M8); nothing where none was,
  /// or where the hours of the readings are not known.
  std::optional<double> drift_per_hour;
};

/// Spread of the unstruck units (M2, sibling-panel).
struct SiblingSpread {
  struct Unit {
    std::size_t unit = 0;  ///< index into Record::siblings
    double q = 0.0;        ///< mean over its set-ups
    int setups = 0;
  };
  std::vector<Unit> units;
  std::optional<double> sd;  ///< s_m of their means; nothing for a single one
  bool assumed = false;      ///< the maker's tolerance stands for the spread: nothing is decided
};

/// A straight line in time over all set-ups, with the step at the shots (M8).
struct FittedTrend {
  double per_day = 0.0;  ///< of lambda
  double u_per_day = 0.0;
  double u_without = 0.0;  ///< u_A had no line been fitted
};

/// A comparison written as a weighted sum of log normalised powers with every error as one shared
/// input: lambda = sum of w_r q_r. What is shared cancels by construction, nobody assumes it.
struct PowerModel {
  struct Link {
    ErrorSlot slot;
    std::size_t input;
  };
  struct Term {
    NormalisedReading reading;
    double weight;
    std::vector<Link> links;
    std::size_t index = 0;  ///< of the reading in Record::readings
  };
  std::vector<Term> terms;
  std::vector<BudgetInput> inputs;  ///< type B, and stated set-up components
  std::vector<BudgetRow> scatter;   ///< type A rows, whose sensitivity is known already
  /// Set-ups of the stages. With siblings: `to` are those of the struck panel, `from` those of the
  /// unstruck units, each with its own mean.
  std::vector<SetupValue> from, to, baseline;
  bool unit_is_day = false;  ///< days were repeated: the unit is the day mean
  int units_from = 0, units_to = 0, units_baseline = 0;  ///< with siblings: `from` counts those
  /// s_p of the set-ups or days, about the line where one was fitted; s_m of siblings. As a share.
  std::optional<double> pooled_sd;
  double observed_dof = 0.0;               ///< nu_A of the pooled scatter
  std::optional<double> variance_ratio_p;  ///< F ratio of the stage variances over its 97.5 % point
  std::optional<SiblingSpread> siblings;   ///< for that comparison
  std::optional<FittedTrend> trend;

  /// The estimate with zero errors.
  [[nodiscard]] double lambda() const;
  /// The whole budget: every input with its exact sensitivity.
  [[nodiscard]] std::vector<BudgetRow> budget() const;
  /// Whether a steady drift in time was taken out inside a set-up (M8).
  [[nodiscard]] bool drift_taken_out() const;
};

/// Why a comparison cannot be made, or not decided.
enum class PowerObstacle {
  none,
  no_reading_before,
  no_reading_after,
  no_replication,        ///< one set-up a stage and no stated components
  redone_not_stated,     ///< several set-ups, but what they redid is not said
  part_not_redone,       ///< a step was not redone and its size is not stated; subject names it
  part_not_stated,       ///< the stated set-up scatter leaves a step out; subject names it
  one_reading,           ///< a set-up of one reading has no spread
  no_control_pair,       ///< a set-up without a single round of both panels
  no_sibling,            ///< no reading of an unstruck unit that counts
  siblings_set_up_once,  ///< the same panels not set up twice, and no stated components
  one_sibling_set,       ///< fewer than two units measured, and no tolerance stated
  trend_needs_setups,    ///< a fitted line needs four timed set-ups a stage
};

struct PowerModelResult {
  std::optional<PowerModel> model;
  PowerObstacle obstacle = PowerObstacle::none;
  std::string subject;
};

/// Builds the model of a question. Defaults used are noted in `assumptions`.
PowerModelResult build_power_model(const Test& test, const PowerQuestion& question,
                                   ScatterSource source, Assumptions& assumptions);

/// Normalised power of the struck panel in a stage with the uncertainty of the instruments alone.
struct ReferencePower {
  Power power;
  Ratio relative_u;
};
std::optional<ReferencePower> reference_power(const Test& test, StageId stage);

}  // namespace hailwright
