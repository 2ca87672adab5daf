#pragma once

#include "hailwright/evaluate/shading.hpp"

namespace hailwright {

/// Holds the drop of the open-circuit voltage against Voc times shaded substrings over all of them.
/// The gain of the voltmeter cancels in drop / Voc; its digits do not.
/// @param trial       with both open-circuit voltages
/// @param substrings  of the panel
/// Source: an I-V tracer maker's manual (manualshive 1316316, p. 91): the voltage of a healthy
/// panel falls by about Voc / substrings when one is fully shaded, and less suggests a shorted
/// diode [read].
BypassCheck check_bypass(const ShadeTrial& trial, const std::optional<int>& substrings,
                         Assumptions& assumptions);

}  // namespace hailwright
