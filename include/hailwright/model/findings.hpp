#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "hailwright/core/citation.hpp"
#include "hailwright/core/quantity.hpp"
#include "hailwright/core/source.hpp"

namespace hailwright {

/// Whether a thing seen counts as a major visual defect.
enum class Gravity {
  major,     ///< always
  minor,     ///< never; still reported
  by_share,  ///< major when it concerns more than a stated share of a cell's area
};

/// One kind of thing that can be seen on a panel. The list is closed: the reviewer says what was
/// seen, the program decides what is major.
struct FindingKind {
  std::string_view word;     ///< what a record writes: "cell crack"
  std::string_view meaning;  ///< one line for the field sheet and the format page
  Gravity gravity;
  Ratio share;        ///< for by_share: above this it is major; for the others without meaning
  ReadStatus status;  ///< how the rule was read
};

/// The closed list, major ones first, then those by share, then minor ones.
/// Source by status: read = "iec61215-mqt01", from memory = "iec61215-mqt01-later", ours =
/// "minor-findings".
const std::vector<FindingKind>& finding_kinds();
/// The kind that is written exactly so (lower case, single spaces); nullptr when there is none.
const FindingKind* find_finding_kind(std::string_view word);
/// The sources of the list, for `hailwright sources`.
const std::vector<Citation>& finding_sources();

struct Finding {
  SourceSpan origin;
  const FindingKind* kind = nullptr;
  std::string where;           ///< "place 14", "back, lower left"
  std::optional<Ratio> share;  ///< of the cell's area concerned (or cut off, if the crack spread)
  std::string photo;
};

}  // namespace hailwright
