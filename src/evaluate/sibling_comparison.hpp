#pragma once

#include "hailwright/evaluate/power_model.hpp"

namespace hailwright {

/// Unstruck units whose spread decides (MEASUREMENT M2).
inline constexpr std::size_t deciding_siblings = 3;

/// The model of the struck panel less its unstruck siblings in one stage (MEASUREMENT M2).
///
/// From `deciding_siblings` on, and for two of which no tolerance is stated, the observed spread of
/// the units holds what differs from set-up to set-up too, whatever `source` says. Fewer units with
/// the maker's tolerance: that stands for their spread, and the scatter of the set-ups comes from
/// `source`.
PowerModelResult compare_siblings(const Test& test, const PowerQuestion& question,
                                  ScatterSource source, Assumptions& assumptions);

}  // namespace hailwright
