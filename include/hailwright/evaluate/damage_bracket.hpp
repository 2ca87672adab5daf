#pragma once

#include <cstddef>
#include <optional>

#include "hailwright/core/quantity.hpp"
#include "hailwright/model/record.hpp"

namespace hailwright {

struct Assessment;

/// One hit at an end of the bracket.
struct BracketHit {
  std::size_t shot = 0;  ///< index into Record::shots
  Energy estimate;
  Energy bound;          ///< one-sided 95 %: lower of what was borne, upper of what damaged
  std::size_t look = 0;  ///< index into Record::looks that showed it
};

/// Between which energies one panel began to show visible damage (MEASUREMENT M14): a bracket only,
/// since earlier hits may have weakened it. Each end from looks alone; what the power says is
/// judged by series.
struct DamageBracket {
  /// The hit of the most energy (by its lower bound) that a look came after which found no new
  /// major defect. Nothing where there is none.
  std::optional<BracketHit> borne;
  /// Of the hits between the last look without and the first look with a new major defect, the one
  /// of the most energy (by its upper bound): the damage came at this energy or below. Nothing
  /// where none was found, or where the energy of one of these hits is not known.
  std::optional<BracketHit> damaged_by;
  bool damage_seen = false;   ///< a new major defect was found
  bool maybe_before = false;  ///< no look at the start: what was found may have been there
  /// How many hits came since the last look without a new major defect; no look tells them apart.
  /// 0: the defect was found later, without a further hit.
  int hits_between = 0;
  /// The two ends lie the wrong way round: a hit of more energy was borne before, so that the hit
  /// on its own does not explain the damage.
  [[nodiscard]] bool overlapping() const {
    return borne && damaged_by && borne->estimate >= damaged_by->estimate;
  }
};

/// Nothing where no hit on the panel was looked at after it.
std::optional<DamageBracket> bracket_damage(const Test& test, const Assessment& assessment);

}  // namespace hailwright
