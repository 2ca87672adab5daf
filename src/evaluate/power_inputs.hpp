#pragma once

#include <limits>
#include <optional>
#include <string>
#include <vector>

#include "evaluate/setup_units.hpp"
#include "hailwright/evaluate/power_model.hpp"

namespace hailwright {

/// What is particular to the inputs of struck against unstruck units.
struct SiblingInputs {
  /// The spread of the units was observed: it holds what differs from set-up to set-up, too.
  bool spread_observed = false;
  /// It holds the days as well: no two units were read on one date.
  bool days_in_spread = false;
  /// Half-width within which the power of each unit lies, where that stands for the spread.
  std::optional<Ratio> tolerance;
  /// Dates on which the units do not balance, so that the sky of that day does not cancel.
  std::vector<std::string> skies;
};

/// What decides which inputs a comparison has.
struct InputPlan {
  const Test& test;
  const PowerQuestion& question;
  ScatterSource source = ScatterSource::observed;
  bool unit_is_day = false;
  /// Steps that every set-up redid; nothing when unknown.
  std::optional<std::vector<Redone>> redone;
  /// Steps of the displays where the protocol gives none: the finest ones typed.
  Power power_step;
  Irradiance sun_step;
  Assumptions& assumptions;
  std::optional<SiblingInputs> siblings{};

  /// A single set-up a stage redoes everything between the stages by being another set-up.
  [[nodiscard]] bool was_redone(Redone part) const;
  /// End of the ids of inputs that are drawn once in the stage of this unit.
  [[nodiscard]] std::string stage_suffix(const UnitSetup& unit) const;
};

/// Collects the inputs that touch a reading. One error is one input, however many readings it
/// touches: the input of an id is made once.
class InputLinks {
public:
  explicit InputLinks(PowerModel& model) : model_(model) {}
  /// Nothing for an input without uncertainty.
  void add(ErrorSlot slot, const BudgetInput& input);
  /// Links that another reading has, too.
  void add(const std::vector<PowerModel::Link>& links);
  [[nodiscard]] std::vector<PowerModel::Link> take();

private:
  PowerModel& model_;
  std::vector<PowerModel::Link> links_;
};

/// A type B input.
BudgetInput type_b(std::string id, std::string label, Scope scope, double u, Shape shape,
                   double dof = std::numeric_limits<double>::infinity());

/// The finest step in which the record's powers and irradiances are typed.
Power typed_power_step(const Record& record);
Irradiance typed_sun_step(const Record& record);

/// Adds the readings of one stage with their weights and every input that touches them.
/// @param sign  +1 for the later stage, -1 for the earlier
/// Returns the step of a set-up that was not redone and whose size nobody stated, if there is one.
std::optional<std::string> add_terms(PowerModel& model, const InputPlan& plan,
                                     const std::vector<UnitSetup>& block,
                                     const std::vector<double>& weights, double sign);

/// The step of a set-up that a stated component belongs to: by `of`, or by its name.
std::optional<Redone> part_of(const SetupComponent& component);

/// The first step of a set-up that the stated components leave out: all must be there, or one
/// component for the whole. The probe has a stated default of its own.
std::optional<std::string> unstated_part(const std::vector<SetupComponent>& stated);

/// The finest step in which values are given: the largest of 1, 0.1, 0.01, 0.001 that divides them.
double typed_step(const std::vector<double>& values);

/// A step of a set-up as protocols and records name it: "mount".
std::string_view word(Redone part);

}  // namespace hailwright
