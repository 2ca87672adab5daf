#pragma once

#include <cstddef>
#include <optional>
#include <string>
#include <vector>

#include "hailwright/core/source.hpp"
#include "hailwright/evaluate/verdict_word.hpp"
#include "hailwright/model/record.hpp"

namespace hailwright {

struct Assessment;

/// How one quantity of what was done stands to the plan, at 95 % (MEASUREMENT M10).
enum class StressSide { not_weaker, weaker, cannot_tell };

/// One quantity of what was done.
struct StressQuantity {
  StressReached reached;
  /// From where on it counts as reached: the planned value less the tolerance on the weak side.
  double counts_from = 0.0;
  double low = 0.0, high = 0.0;    ///< two-sided 95 % interval of what was done
  double chance_not_weaker = 0.0;  ///< P(at least as strong as `counts_from`)
  StressSide side = StressSide::cannot_tell;
  bool not_stronger = false;  ///< P(not stronger than the plan and its tolerance) >= 0.95
};

/// Something done to the panel between two looks, or between two stages of readings.
struct PanelEvent {
  bool hail = false;
  std::size_t index = 0;  ///< into Protocol::series, or into Record::stresses
  friend bool operator==(const PanelEvent&, const PanelEvent&) = default;
};

/// How what was done stood to the plan when damage followed.
enum class StressDamageBy {
  at_level,      ///< no quantity could have been stronger than the plan
  perhaps_more,  ///< some may have been: says nothing about the level itself
  below_level    ///< shown to be weaker than the plan
};

/// What decided the word of a stress, and what else bears on it.
enum class StressBecause {
  new_major_defect,  ///< subject: the defect and its place
  power_beyond,
  not_told,        ///< what was done cannot be told from what was typed
  weaker,          ///< subject: the quantity
  perhaps_weaker,  ///< subject: the quantity
  together,        ///< damage that another stress or hail may have done; subject: the defect,
                   ///< or empty for the power
  no_look_before,
  no_look_after,
  cell_share_not_stated,  ///< subject: where
  power_missing,
  power_obstacle,
  power_not_deciding,
  power_not_valid,
  power_undecided,
  power_spoilt,       ///< subject: why, a sentence
  damaged_before,     ///< hail or a stress before it had damaged the panel already
  unsuited,           ///< subject: why it was not for this panel, a sentence
  defect_from_start,  ///< subject: a major defect that was there before the first thing done
  delivered,
  looks_clean,
  power_within
};

struct StressReason {
  StressBecause because;
  std::string subject;
  SourceSpan where;
  std::optional<std::size_t> look{};  ///< index into Record::looks, of a thing seen
};

/// What became of one stress other than hail.
struct StressVerdict {
  std::size_t done = 0;  ///< index into Record::stresses
  Word word = Word::undecided;
  std::vector<StressReason> reasons;       ///< deciding ones first
  std::vector<StressQuantity> quantities;  ///< empty where what was done cannot be told
  bool delivered = false;                  ///< every quantity is not weaker
  std::optional<StressDamageBy> damage_by;
  std::optional<std::size_t> look_before, look_after;  ///< indices into Record::looks
  std::vector<PanelEvent> look_others;   ///< what else was done between these two looks
  std::optional<std::size_t> power;      ///< index into Assessment::stress_power
  std::vector<PanelEvent> power_others;  ///< what else was done between its two stages
  bool power_claimed = true;
  bool clean_looks = false;  ///< looked before and after, and no new major defect
};

/// Judges one stress by the truth table of M11, from looks, power and the verdicts on what was done
/// before it, which `assessment` holds already.
/// @param done  index into Record::stresses
StressVerdict judge_stress(const Test& test, const Assessment& assessment, std::size_t done);

}  // namespace hailwright
