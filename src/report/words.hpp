#pragma once

#include <cstddef>
#include <string>
#include <vector>

#include "hailwright/core/quantity.hpp"

namespace hailwright {

/// "a", "a and b", "a, b and c".
std::string enumerate(const std::vector<std::string>& items);

/// "1 day", "3 days".
std::string counted(int n, const std::string& noun);

/// The text with its first letter large, where that is one of a to z: "After large".
std::string capitalised(std::string text);

/// "89.00 EUR", to the cent; what is not told so, of ten millions or below half a cent, to three
/// digits: "1.00e300 EUR", "1.00e-7 EUR".
std::string money_text(const Money& money);

/// The letters that count from 0: "A" to "Z", "AA", "AB". So findings are marked and the columns of
/// a sheet named.
std::string letters_of(std::size_t index);

/// A number to so many significant digits without trailing zeros: "25", "7.53", "0.94".
std::string plain_number(double value, int digits);

}  // namespace hailwright
