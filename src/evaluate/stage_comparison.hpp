#pragma once

#include "hailwright/evaluate/power_model.hpp"

namespace hailwright {

/// The model of one panel, or of the struck one less the control, from one stage to another
/// (MEASUREMENT M1, M2, M8).
PowerModelResult compare_stages(const Test& test, const PowerQuestion& question,
                                ScatterSource source, Assumptions& assumptions);

}  // namespace hailwright
