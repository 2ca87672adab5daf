#pragma once

#include <optional>
#include <span>

#include "hailwright/report/compose.hpp"
#include "hailwright/report/document.hpp"

namespace hailwright::detail {

/// Losses of several records, a row a stage that answers for series, on one axis with the limit of
/// each. Nothing where no record has a comparison of power.
std::optional<Figure> side_by_side_losses(std::span<const Judged> judged);

/// Energies of several records, a row a series, from the least to the most. Nothing where none is
/// known.
std::optional<Figure> side_by_side_energies(std::span<const Judged> judged);

/// What is said below both: they are no ranking (MEASUREMENT M15).
inline constexpr const char* no_ranking =
    "each row is a test of one panel by itself: the rows are in the order in which they were "
    "given and rank nothing";
/// The same at the end of their descriptions.
inline constexpr const char* no_ranking_described = " The rows rank nothing.";

}  // namespace hailwright::detail
