#pragma once

#include <string>
#include <vector>

#include "hailwright/core/source.hpp"
#include "hailwright/evaluate/assessment.hpp"
#include "hailwright/report/document.hpp"

namespace hailwright {

/// What one panel tells of the energy at which damage began, each with its limits. Empty where no
/// hit was looked at.
std::vector<std::string> bracket_sentences(const Test& test, const Assessment& assessment);

/// The same for a judgement.
Facts bracket_facts(const Test& test, const Assessment& assessment, const SourceSet& sources);

}  // namespace hailwright
