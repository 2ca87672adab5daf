#pragma once

#include <string>
#include <vector>

#include "hailwright/core/source.hpp"
#include "hailwright/evaluate/assessment.hpp"
#include "hailwright/report/document.hpp"

namespace hailwright {

/// "before the shots", "after the shots, 2026-06-20": which of several measurements it was.
/// @param hail  whether the test has shots; otherwise "the stresses" stands for them
std::string when_text(bool after, const std::string& date, bool hail = true);

/// A line each for the defaults that were taken, with what to write instead; each once.
void add_assumed_lines(std::vector<std::string>& lines, const Assumptions& assumptions);

/// What one session read off a meter came to.
std::vector<std::string> meter_session_sentences(const MeterSession& session,
                                                 const MeterSessionResult& result,
                                                 bool hail = true);

/// Sessions whose energy was read off a meter. Nothing where the record has none.
Facts energy_facts(const Test& test, const Assessment& assessment, const SourceSet& sources);

}  // namespace hailwright
