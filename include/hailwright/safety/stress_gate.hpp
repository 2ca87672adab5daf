#pragma once

#include <optional>
#include <span>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

#include "hailwright/core/diagnostic.hpp"
#include "hailwright/core/source.hpp"
#include "hailwright/model/panel.hpp"
#include "hailwright/model/protocol.hpp"
#include "hailwright/safety/cautions.hpp"
#include "hailwright/safety/gate.hpp"

// The gate of the stresses other than hail. Each entry of `stresses:` answers the questions of its
// kind under its own `safety:`; initials and day stand once, in the protocol's `safety: agreed:`.

namespace hailwright {

/// Why a stress is refused whatever is answered.
enum class StressRefusal {
  by_answer,            ///< an answer that no other makes good: an installed panel
  unsuited,             ///< not for a panel of this build, or not so strong
  voltage_out_of_range  ///< the cold panel's open-circuit voltage
};

struct StressRefusalFinding {
  StressRefusal refusal;
  std::string stress;  ///< name of the entry
  std::string found;   ///< "bending, Rigid A: a panel of glass is not bent"
  SourceSpan where;
  std::string_view hazard;  ///< id of the caution that says why
};

/// What is wrong with one answer.
struct StressFinding {
  AnswerFault fault;
  std::string stress;  ///< name of the entry; empty for `agreed`
  std::string key;
  std::string hazard;  ///< id of the caution that asks for it; empty in `agreed`
  std::string asks;    ///< the question
  std::string found;   ///< as it was written; empty when missing
  std::string wanted;
  SourceSpan where;  ///< of the answer, or else of the entry
};

/// Leave to print what helps to do the stresses of a protocol. Only the gate makes one.
class StressClearance {
public:
  [[nodiscard]] const std::string& agreed_by() const { return by_; }
  [[nodiscard]] const std::string& agreed_on() const { return on_; }

private:
  friend struct StressGate;
  StressClearance(std::string by, std::string on) : by_(std::move(by)), on_(std::move(on)) {}
  std::string by_, on_;
};

struct StressGateResult {
  std::vector<StressRefusalFinding> refusals;
  std::vector<StressFinding> findings;       ///< entry after entry, then `agreed`
  std::optional<StressClearance> clearance;  ///< only without refusals and findings
  /// The missing and outdated keys as YAML: for each entry of `stresses:` the lines that belong
  /// under it, `safety:` first where it has none, then those of the protocol's own `safety:`.
  /// Comments say which is which. Empty when nothing is missing.
  std::vector<std::string> snippet;
};

struct StressGate {
  /// Holds the answers of all stresses of the protocol against the questions of their kinds, and
  /// each stress against each panel. Nothing is given for a part of them. A protocol without
  /// stresses has nothing to be asked: no clearance, no finding.
  /// @param today  ISO date (contract); answers older than 30 days are asked again
  static StressGateResult ask(const Protocol& protocol, std::span<const Panel> panels,
                              const std::string& today);
};

/// What the gate found as messages at their places: S02 missing, S03 not enough, S04 too old,
/// S05 refused.
Diagnostics stress_gate_messages(const StressGateResult& result);

/// What to make ready for one stress of the protocol, for one panel.
std::vector<StressAdvice> stress_advice(const StressPlan& stress, const Panel& panel,
                                        const StressClearance& leave);

/// Ids of the cautions of a kind: its own, and those of other outputs that its questions name.
std::vector<std::string_view> cautions_of_stress(const StressKind& kind);

/// The facts of a panel that is stressed by these stresses of a protocol, without any hail.
CautionFacts stress_caution_facts(const Protocol& protocol, std::span<const Panel> panels);

}  // namespace hailwright
