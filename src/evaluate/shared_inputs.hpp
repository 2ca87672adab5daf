#pragma once

#include "evaluate/power_inputs.hpp"

namespace hailwright {

/// Links the readings of one panel in a set-up to the errors that they share with their set-up,
/// their day or their stage, whatever they were read with (MEASUREMENT M1), and to what the panel
/// differs by from others of its model. Returns a step of the set-up that was not redone and whose
/// size nobody stated.
std::optional<std::string> link_shared(InputLinks& links, const InputPlan& plan,
                                       const UnitSetup& unit, PanelOf panel);

}  // namespace hailwright
