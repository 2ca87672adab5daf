#pragma once

#include <string>
#include <vector>

#include "hailwright/evaluate/power.hpp"

namespace hailwright {

/// Decimals of a loss in per cent. One digit of its standard uncertainty always; a second one, up
/// to tenths of a per cent, unless the random trials agree with the interval to one digit alone
/// (JCGM 100:2008, 7.2.6; JCGM 101:2008, clause 8). More only where an end, of the interval or of
/// the random trials, would otherwise mislead.
int loss_decimals(const PowerResult& power);

/// So many decimals, in per cent, or as many more as it takes that no end looks as if it lay on the
/// other side of 0 or of the limit than it does, or on it.
int telling_decimals(const std::vector<Ratio>& ends, Ratio limit, int decimals);

/// Decimals of the loss in watts: two digits of its standard uncertainty, one where the random
/// trials agree to one alone. Of a power below a watt two digits at least, here and below.
int watts_decimals(const PowerResult& power, Power before);

/// Decimals of a power in watts: two digits of its standard uncertainty, one decimal at least.
int power_decimals(Power power, Ratio relative_u);

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
