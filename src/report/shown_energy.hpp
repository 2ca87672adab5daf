#pragma once

#include "hailwright/core/quantity.hpp"
#include "hailwright/metrology/estimate.hpp"

namespace hailwright {

struct EnergyEnds {
  Energy low, high;
};

/// The two-sided 95 % interval of an energy, which is never below zero. Each end lies a little
/// further off than the one-sided bound of the same confidence.
EnergyEnds two_sided_interval(const Estimate<Energy>& energy);

/// Energies of balls whose mass and speed are both at the lower, and both at the upper end of a
/// tolerance that is one share of each (rule M10).
EnergyEnds corners_of_tolerance(Energy nominal, Ratio tolerance);

}  // namespace hailwright
