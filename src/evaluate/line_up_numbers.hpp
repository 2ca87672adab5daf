#pragma once

#include <map>
#include <optional>
#include <vector>

#include "hailwright/evaluate/line_up.hpp"

namespace hailwright {

/// What a record can be put in order by, but for its loss in the shade: what it lacks is left out.
///
/// Errors of power and of all that follows from it are those of `reference_budget`; those of the
/// loss are its own budget. A price, an area, a mass and a rated power are taken as they stand.
/// @param compared  the comparison whose loss counts; nullptr: none does
std::map<LineUpQuantity, LineUpNumber> line_up_numbers(const Test& test,
                                                       const PowerResult* compared);

/// What one shade leaves of the power: of the first shade that was read twice or more, so that its
/// scatter is known, those before the shots first.
struct ShadedNumber {
  std::string shade;
  LineUpNumber left;
};
std::optional<ShadedNumber> line_up_shading(const Test& test,
                                            const std::vector<ShadingResult>& shading);

/// The errors of a budget. Errors of an instrument with an id, and those of a panel model, have a
/// key by which another record's are the same; all others are the record's own.
std::vector<LineUpError> line_up_errors(const Test& test, const std::vector<BudgetRow>& rows);

}  // namespace hailwright
