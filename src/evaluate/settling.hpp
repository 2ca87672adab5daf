#pragma once

#include <optional>
#include <span>

#include "hailwright/evaluate/power.hpp"

namespace hailwright {

/// What settles an undecided limit (MEASUREMENT M6): the smallest number of further set-ups after
/// the shots (or days, where those are the unit) with P(decided) >= 0.80, by the non-central t; the
/// before stage keeps its share. The further ones are taken to scatter as those that were made, and
/// to share the sky of their day: what is no scatter of the units stays as it is. A loss below zero
/// is taken for none: hail adds no power. Nothing for siblings, where further siblings are what
/// helps, and for a fitted line, whose scatter depends on when the further set-ups are.
/// @param budget  of the model, as it stands
/// @param alpha   risk of the look that would follow
std::optional<Settling> settle(const PowerModel& model, std::span<const BudgetRow> budget,
                               const LossEstimate& estimate, Ratio limit, double alpha);

}  // namespace hailwright
