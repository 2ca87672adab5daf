#pragma once

#include <string>

#include "hailwright/evaluate/power.hpp"

namespace hailwright {

/// Decimals of a loss in per cent. One digit of its standard uncertainty always; a second one, up
/// to tenths of a per cent, unless the random trials agree with the interval to one digit alone
/// (JCGM 100:2008, 7.2.6; JCGM 101:2008, clause 8). More only where an end would otherwise look as
/// if it lay on the other side of 0 or of the limit than it does, or on it.
int loss_decimals(const PowerResult& power);

/// "0.7 %": a loss in the decimals of a result.
std::string loss_text(Ratio loss, const PowerResult& power);

/// "-0.8 % to 2.1 %": two ends in the decimals of a result.
std::string ends_text(Ratio low, Ratio high, const PowerResult& power);

/// "0.7 % (95 %: -0.8 % to 2.1 %)": an estimate, such as one with other readings, in the decimals
/// of a result.
std::string interval_text(const LossEstimate& estimate, const PowerResult& power);
/// The same of the result itself.
std::string interval_text(const PowerResult& power);

}  // namespace hailwright
