#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

#include "hailwright/core/diagnostic.hpp"
#include "hailwright/core/quantity.hpp"
#include "hailwright/core/source.hpp"
#include "hailwright/model/protocol.hpp"
#include "hailwright/safety/cautions.hpp"

namespace hailwright {

/// The dangers of a plan in numbers, all upper values.
struct PlanDangers {
  Launcher launcher = Launcher::other;
  Energy muzzle_energy;    ///< of the hardest ball, at the muzzle, tolerance corner
  EnergyPerArea per_area;  ///< of its cross-section
  Length no_air_reach;     ///< M16, from the fastest muzzle speed; or farther
  std::optional<Length> drop_height;
  /// Open-circuit voltage of each panel when cold; nothing where the label is not known. A plan
  /// without panels counts as one whose label is not known.
  std::vector<std::optional<Voltage>> cold_voltages;
  std::optional<TemperaturePoint> freezer;
  bool reads_power = true;
  /// Longest side of all panels: the backstop must be larger. Not compared when not known.
  std::optional<Length> panel_long_side;
  /// Whether the load is a power station or charge controller; not known: may be.
  std::optional<bool> power_station;
  SourceSpan launch_origin;  ///< where the protocol says how the balls are launched
};

/// The figures that the gate alone decides by; the others are in CautionLimits.
struct GateLimits {
  static constexpr int oldest_answer_days = 30;  ///< [ours]
  /// Working height from which a rail is asked for: 6 ft, rounded down [OSHA, read as quoted].
  static constexpr Length working_height = Length::from_si(1.8);
};

/// Why a plan is refused whatever is answered.
enum class Refusal {
  lethal_energy,     ///< upper muzzle energy of 78.63 J or more
  plastic_pressure,  ///< a plastic part under gas pressure
  installed_panel,
  people_forward,
  high_voltage_test,
  voltage_out_of_range  ///< above extra-low voltage
};

/// What is wrong with one answer.
enum class AnswerFault {
  missing,
  insufficient,  ///< a number too small, eye protection too weak, ...
  too_old,       ///< agreed more than 30 days before today, or after today
};

struct GateFinding {
  AnswerFault fault;
  std::string block, key;
  std::string hazard;  ///< id of the caution that asks for it; empty in `agreed`
  std::string found;   ///< as it was written; empty when missing
  std::string wanted;  ///< "at least 54 m, or a backstop with closed sides"
  SourceSpan where;    ///< of the answer; of `safety`, or else `launch`, when missing
};

struct RefusalFinding {
  Refusal refusal;
  std::string found;        ///< "80.20 J at the muzzle"
  SourceSpan where;         ///< line 0 where no single answer is to blame
  std::string_view hazard;  ///< id of the caution that says why
};

/// Leave to print what helps to launch. Only the gate makes one; it goes with the protocol and the
/// dangers that it was asked for.
class Clearance {
public:
  [[nodiscard]] const std::string& agreed_by() const { return by_; }
  [[nodiscard]] const std::string& agreed_on() const { return on_; }

private:
  friend struct Gate;
  Clearance(std::string by, std::string on) : by_(std::move(by)), on_(std::move(on)) {}
  std::string by_, on_;
};

struct GateResult {
  std::vector<RefusalFinding> refusals;
  std::vector<GateFinding> findings;   ///< in the order of the questions
  std::optional<Clearance> clearance;  ///< only without refusals and findings
  /// The missing and outdated keys as YAML, ready to be filled in: lines that belong under
  /// `safety:`, which is the first of them when the protocol has no answers yet. Each answer is the
  /// mark `answer_to_come`, which the reader refuses. Empty when nothing is missing.
  std::vector<std::string> snippet;
};

/// The safety gate.
struct Gate {
  /// Holds the answers against what the plan can do. An answer that the plan does not ask for is
  /// not looked at; an answer that is not of its form is not enough. Fewer answers never give a
  /// clearance that more of them do not.
  /// @param dangers  finite and not below zero; the energy, and the reach of what flies, above it
  ///                 (contract)
  /// @param today    ISO date (contract); answers older than 30 days are asked again
  static GateResult ask(const SafetyAnswers& answers, const PlanDangers& dangers,
                        const std::string& today);
};

/// What the gate found as messages at their places: S02 missing, S03 not enough, S04 too old,
/// S05 refused.
Diagnostics gate_messages(const GateResult& result);

/// The cautions of a plan, most urgent first. What the answers do not rule out is shown.
std::vector<const Caution*> plan_hazards(const PlanDangers& dangers, const SafetyAnswers& answers);

/// The plan's own figure behind a caution, in words: "8.87 J at the muzzle". Empty where the plan
/// has none. A figure of how far a ball flies is rounded up.
std::string plan_figure(const Caution& caution, const PlanDangers& dangers,
                        const SafetyAnswers& answers);

}  // namespace hailwright
