#pragma once

#include "hailwright/evaluate/power.hpp"
#include "hailwright/evaluate/power_model.hpp"
#include "hailwright/metrology/monte_carlo.hpp"

namespace hailwright {

/// Draws lambda of a comparison: every input by its shape, once for all the readings it touches,
/// through the same formula that gives the estimate and the sensitivities. Inputs that enter only
/// as a factor are drawn as one where the sum is exactly of one shape.
BlockSampler loss_sampler(const PowerModel& model);

/// Checks the first-order result by random trials (MEASUREMENT M7): interval, clause 8 of
/// JCGM 101:2008, and whether an answer of M4 would be another one.
MonteCarloCheck check_by_trials(const PowerModel& model, const LossEstimate& estimate, Ratio limit,
                                const CheckPlan& plan);

}  // namespace hailwright
