#pragma once

#include "hailwright/evaluate/assessment.hpp"

namespace hailwright {

/// What a judged test tells the cautions: upper energies, launcher, voltages, temperatures, what
/// was broken.
CautionFacts caution_facts(const Test& test, const Assessment& assessment);

}  // namespace hailwright
