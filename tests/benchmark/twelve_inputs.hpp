#pragma once

#include "hailwright/evaluate/power_model.hpp"

namespace hailwright::measured {

/// The model that tests/benchmark/compare runs in every language: one reading before and one after
/// the shots, twelve inputs, seven of them normal and five rectangular. Four are shared by both
/// readings: gain of the power meter, gain of the sun meter, temperature coefficient, cell above
/// back. All values invented.
PowerModel twelve_inputs();

}  // namespace hailwright::measured
