// Numbers and amounts as text: the way back of core/quantity_text.hpp.
#include "hailwright/core/quantity_text.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <charconv>
#include <cmath>
#include <utility>

#include "hailwright/core/contract.hpp"

namespace hailwright {

namespace {

/// Whether the exact decimal expansion of the double ends with this decimal (-1 is the tens).
bool ends_at(double value, int decimals) {
  // A double is k / 2^n; it is a multiple of 10^-d exactly when it is one of 2^-d.
  if (decimals >= 0) {
    constexpr double all_whole_from = 9007199254740992.0;  // 2^53
    if (std::abs(value) >= all_whole_from) return true;
    const double scaled = std::ldexp(value, decimals);
    return scaled == std::trunc(scaled);
  }
  // 5^22 is the largest power of five that divides a double of 53 bits.
  constexpr int largest_exact_power = 22;
  if (-decimals > largest_exact_power) return value == 0.0;
  double power = 1.0;
  for (int i = 0; i < -decimals; ++i)
    power *= 10.0;
  return std::fmod(value, power) == 0.0;
}

/// Whether the double lies exactly half-way between two numbers of so many decimals.
bool is_half(double value, int decimals) {
  // An odd number of half units of the last decimal. Doubling is exact.
  return !ends_at(value, decimals) && ends_at(2.0 * value, decimals);
}

/// The decimal number one unit of its last digit farther from zero: "-0.99" gives "-1.00".
std::string one_unit_up(std::string number) {
  for (std::size_t i = number.size(); i > 0; --i) {
    char& c = number[i - 1];
    if (c < '0' || c > '9') continue;
    if (c != '9') {
      ++c;
      return number;
    }
    c = '0';
  }
  number.insert(number.starts_with('-') ? 1 : 0, "1");
  return number;
}

/// Without the sign of a number that has only zeros left.
std::string without_negative_zero(std::string digits) {
  const bool only_zeros = digits.find_first_of("123456789") == std::string::npos;
  if (only_zeros && digits.starts_with('-')) digits.erase(0, 1);
  return digits;
}

/// The exponent of ten behind the e of fmt's scientific notation.
int exponent_of(std::string_view scientific) {
  std::string_view digits = scientific.substr(scientific.find('e') + 1);
  if (digits.starts_with('+')) digits.remove_prefix(1);
  int exponent = 0;
  const auto read = std::from_chars(digits.data(), digits.data() + digits.size(), exponent);
  expects(read.ec == std::errc{}, "fmt writes an exponent");
  return exponent;
}

const Unit& unit_of(std::string_view symbol) {
  const auto found = std::find_if(units().begin(), units().end(),
                                  [&](const Unit& unit) { return unit.symbol == symbol; });
  expects(found != units().end(), "the unit is in the table");
  return *found;
}

std::string with_unit(double si, const Unit& unit, int decimals) {
  return fmt::format("{} {}", fixed(number_in(si, unit), decimals), unit.symbol);
}

}  // namespace

std::string fixed(double value, int decimals) {
  constexpr int most_decimals = 30;
  expects(std::isfinite(value), "only finite numbers are printed");
  expects(decimals >= 0 && decimals <= most_decimals, "0 to 30 decimals");
  if (is_half(value, decimals)) {
    // fmt would go to the even digit. One decimal more is exact and ends with the 5 of the half.
    std::string exact = fmt::format("{:.{}f}", value, decimals + 1);
    exact.erase(exact.size() - (decimals == 0 ? 2 : 1));
    return one_unit_up(std::move(exact));
  }
  return without_negative_zero(fmt::format("{:.{}f}", value, decimals));
}

namespace {

/// Significant digits without sign and point, and the power of ten of the first.
struct Rounded {
  std::string digits;
  int exponent = 0;
};

std::string digits_of(std::string_view scientific) {
  std::string digits;
  for (const char c : scientific.substr(0, scientific.find('e'))) {
    if (c >= '0' && c <= '9') digits += c;
  }
  return digits;
}

Rounded rounded(double size, int digits) {
  // 18 digits give the exponent of the value itself, but for a few doubles a hair below a power of
  // ten; those have far too many digits to be halves.
  const int exponent = exponent_of(fmt::format("{:.17e}", size));
  if (!is_half(size, digits - 1 - exponent)) {
    const std::string scientific = fmt::format("{:.{}e}", size, digits - 1);
    return {digits_of(scientific), exponent_of(scientific)};
  }
  std::string exact = digits_of(fmt::format("{:.{}e}", size, digits));
  exact.pop_back();
  exact = one_unit_up(std::move(exact));
  if (exact.size() == static_cast<std::size_t>(digits)) return {exact, exponent};
  exact.pop_back();  // 9.5 became 10
  return {exact, exponent + 1};
}

}  // namespace

std::string significant(double value, int digits) {
  constexpr int most_digits = 17;
  constexpr double smallest_plain = 1e-5;
  constexpr double first_not_plain = 1e7;
  expects(std::isfinite(value), "only finite numbers are printed");
  expects(digits >= 1 && digits <= most_digits, "1 to 17 significant digits");
  if (value == 0.0) return "0";
  const double size = std::abs(value);
  const std::string sign = value < 0.0 ? "-" : "";
  const auto [shown, exponent] = rounded(size, digits);
  if (size < smallest_plain || size >= first_not_plain) {
    const std::string point = digits > 1 ? "." : "";
    return fmt::format("{}{}{}{}e{}", sign, shown.front(), point, shown.substr(1), exponent);
  }
  if (exponent < 0) {
    return sign + "0." + std::string(static_cast<std::size_t>(-exponent - 1), '0') + shown;
  }
  const auto whole = static_cast<std::size_t>(exponent) + 1;
  if (shown.size() <= whole) return sign + shown + std::string(whole - shown.size(), '0');
  return sign + shown.substr(0, whole) + "." + shown.substr(whole);
}

int decimals_for(double uncertainty) {
  constexpr int most_decimals = 6;
  expects(uncertainty >= 0.0, "an uncertainty is not negative and not nan");
  if (uncertainty == 0.0) return most_decimals;
  if (std::isinf(uncertainty)) return 0;
  // From the rounded digits: 0.0996 is 0.10 to two digits and needs two decimals, not three.
  const int exponent = exponent_of(fmt::format("{:.1e}", uncertainty));
  return std::clamp(1 - exponent, 0, most_decimals);
}

std::string in_unit(double si, std::string_view symbol, int decimals) {
  return with_unit(si, unit_of(symbol), decimals);
}

std::string in_unit(double si, Measure measure, std::string_view symbol, int decimals) {
  const Unit* unit = find_unit(symbol, measure);
  expects(unit != nullptr, "the table has the unit for this measure");
  return with_unit(si, *unit, decimals);
}

}  // namespace hailwright
