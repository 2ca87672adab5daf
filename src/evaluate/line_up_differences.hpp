#pragma once

#include <vector>

#include "hailwright/evaluate/line_up.hpp"

namespace hailwright {

/// Whether a larger number is the better one: all but a price.
bool larger_is_better(LineUpQuantity quantity);

/// A group of entries with this number: their order, the differences that are looked at, and the
/// ranks which these leave open.
/// @param members  indices into `entries`, two or more, in the order given
LineUpGroup rank_group(const std::vector<LineUpEntry>& entries,
                       const std::vector<std::size_t>& members, LineUpQuantity quantity);

/// What the difference of two numbers is known by: errors of one key count once, with their signed
/// sum (JCGM 100:2008, 5.2.4), all others by themselves; effective degrees of freedom after G.4.1.
struct DifferenceErrors {
  Combined all;
  Combined finite;  ///< of the errors with finite degrees of freedom alone
};
DifferenceErrors errors_of_difference(const LineUpNumber& a, const LineUpNumber& b);

}  // namespace hailwright
