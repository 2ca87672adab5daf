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
  StageId from;  ///< nearly always `before`
  StageId to;
  /// struck: the panel against itself; both: struck minus control; control: the control against
  /// itself, to see whether it stood still.
  enum class Of { struck, control, both } of = Of::struck;
  bool keep_skipped = false;  ///< read the skipped readings too, where they have values
};

/// Where the scatter of the set-ups comes from.
enum class ScatterSource {
  observed,  ///< repeats of the outermost level truly repeated
  stated     ///< components that the protocol states; readings give their own scatter only
};

/// The value of one set-up with its number of readings that count.
struct SetupValue {
  std::size_t setup = 0;  ///< index into Record::setups
  double q = 0.0;  ///< mean of ln(normalised power in W), or of its difference to the control
  int readings = 0;
  std::optional<double> reading_sd;  ///< of single readings (or rounds); nothing for one
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
  };
  std::vector<Term> terms;
  std::vector<BudgetInput> inputs;  ///< type B, and stated set-up components
  std::vector<BudgetRow> scatter;   ///< type A rows, whose sensitivity is known already
  std::vector<SetupValue> from, to, baseline;
  bool unit_is_day = false;  ///< days were repeated: the unit is the day mean
  int units_from = 0, units_to = 0, units_baseline = 0;
  std::optional<double> pooled_sd;         ///< s_p of the units, as a share
  double observed_dof = 0.0;               ///< nu_A of the pooled scatter
  std::optional<double> variance_ratio_p;  ///< F ratio of the stage variances over its 97.5 % point

  /// The estimate with zero errors.
  [[nodiscard]] double lambda() const;
  /// The whole budget: every input with its exact sensitivity.
  [[nodiscard]] std::vector<BudgetRow> budget() const;
};

/// Why a comparison cannot be made, or not decided.
enum class PowerObstacle {
  none,
  no_reading_before,
  no_reading_after,
  no_replication,     ///< one set-up a stage and no stated components
  redone_not_stated,  ///< several set-ups, but what they redid is not said
  part_not_redone,    ///< a step was not redone and its size is not stated; subject names it
  part_not_stated,    ///< the stated set-up scatter leaves a step out; subject names it
  one_reading,        ///< a set-up of one reading has no spread
  no_control_pair,    ///< a set-up without a single round of both panels
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
