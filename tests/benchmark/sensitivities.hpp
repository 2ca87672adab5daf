#pragma once

#include <array>

#include "hailwright/physics/normalised_power.hpp"

namespace hailwright::measured {

// Derivatives of log_normalised_power by its eight errors, in three ways; each in a file of its
// own, so that the build's log tells what it costs to compile.

using Sensitivities = std::array<double, error_slots>;

/// By our Dual, all eight in one pass.
Sensitivities by_dual(const NormalisedReading& reading);
/// By Boost's autodiff with one variable, a pass for each error.
Sensitivities by_boost_each(const NormalisedReading& reading);
/// By Boost's autodiff with eight variables. It carries all mixed derivatives too.
Sensitivities by_boost_joint(const NormalisedReading& reading);

}  // namespace hailwright::measured
