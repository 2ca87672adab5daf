#pragma once

#include <string>
#include <vector>

#include "hailwright/evaluate/assessment.hpp"

// The words for what a loss looks like, the same in every format.

namespace hailwright {

/// "open-circuit voltage".
std::string figure_name(CurveFigure figure);
/// Symbol of its unit: "V", "A".
std::string figure_unit(CurveFigure figure);
/// "part of one cell cut off".
std::string pattern_name(CurvePattern pattern);
/// How much of it: "about 12 % of the cell".
std::string pattern_size(CurvePattern pattern, double size);
/// "down 33.3 %", "up 0.4 %", of a change of the logarithm.
std::string change_text(double log_change);

/// "open-circuit voltage: 22.1 V before, 14.7 V after, down 33.3 % (95 %: -34.0 % to -32.6 %)".
std::string change_sentence(const CurveChange& change);
/// Which pattern the change fits, and how much better than others.
std::string pattern_sentence(const LossPattern& pattern);
/// What is left open beside it; may be none.
std::vector<std::string> pattern_remarks(const LossPattern& pattern);
/// Change of the maximum power by these figures, against the loss that was judged; none where the
/// figures of the maximum are missing.
std::vector<std::string> curve_power_sentences(const LossPattern& pattern,
                                               const Assessment& assessment);
/// Why the open-circuit voltage alone shows little; none where there is nothing to explain.
std::vector<std::string> kept_voltage_sentences(const LossPattern& pattern);
/// Patterns that were not weighed, each with the reason.
std::vector<std::string> left_out_sentences(const LossPattern& pattern);
/// What the predictions rest on, and what was taken where nothing was stated.
std::vector<std::string> pattern_basis(const LossPattern& pattern);

}  // namespace hailwright
