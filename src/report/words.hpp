#pragma once

#include <string>
#include <vector>

namespace hailwright {

/// "a", "a and b", "a, b and c".
std::string enumerate(const std::vector<std::string>& items);

/// "1 day", "3 days".
std::string counted(int n, const std::string& noun);

/// A number to so many significant digits without trailing zeros: "25", "7.53", "0.94".
std::string plain_number(double value, int digits);

}  // namespace hailwright
