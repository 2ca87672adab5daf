#pragma once

#include <string>
#include <vector>

#include "hailwright/core/source.hpp"
#include "hailwright/evaluate/assessment.hpp"
#include "hailwright/report/document.hpp"

namespace hailwright {

/// What one shade cost. Contract: it has rounds.
std::string shading_loss_sentence(const ShadingResult& result);
/// What its interval rests on, and what is not in it.
std::vector<std::string> shading_basis_sentences(const ShadingResult& result);
/// The open-circuit voltage against the number of substrings. Contract: both voltages.
std::vector<std::string> bypass_sentences(const ShadeTrial& trial, const BypassCheck& check);

/// What shades cost. Nothing where the record has none.
Facts shading_facts(const Test& test, const Assessment& assessment, const SourceSet& sources);

}  // namespace hailwright
