#pragma once

#include <span>
#include <vector>

namespace hailwright {

/// p values adjusted for their number by Holm's step-down procedure, in the order given: the i-th
/// smallest of m becomes the largest of (m - j + 1) p_(j) over j <= i, at most 1. To call what is
/// at most `risk` shown keeps the chance that any true hypothesis of the set is rejected at or
/// below `risk`, however the p values depend on each other. None gives none; equal ones stay equal.
/// Requires 0 <= p <= 1.
/// Source: S Holm, A simple sequentially rejective multiple test procedure, Scandinavian Journal of
/// Statistics 6 (1979) 65-70 (from memory); computed by R's p.adjust as well
/// (tests/unit/metrology/multiple_comparison_test.cpp).
std::vector<double> holm_adjusted(std::span<const double> p);

/// Level of each of m intervals that hold all at once with at least 1 - `risk`, after Bonferroni's
/// inequality: 1 - risk / m. Requires m >= 1 and 0 < risk < 1.
double bonferroni_level(double risk, std::size_t m);

}  // namespace hailwright
