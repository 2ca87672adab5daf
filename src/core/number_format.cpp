// Numbers and amounts as text: the way back of core/quantity_text.hpp.
#include <fmt/format.h>

#include <algorithm>
#include <charconv>
#include <cmath>
#include <iterator>
#include <limits>

#include "hailwright/core/contract.hpp"
#include "hailwright/core/quantity_text.hpp"

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

/// The value, moved by one bit away from zero where it lies exactly half-way between two numbers
/// of so many decimals. fmt would round such a half to the even digit.
double half_away(double value, int decimals) {
  // An odd number of half units of the last decimal. Doubling is exact.
  if (ends_at(value, decimals) || !ends_at(2.0 * value, decimals)) return value;
  return std::nextafter(value, std::copysign(std::numeric_limits<double>::infinity(), value));
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
  return without_negative_zero(fmt::format("{:.{}f}", half_away(value, decimals), decimals));
}

std::string significant(double value, int digits) {
  constexpr int most_digits = 17;
  constexpr double smallest_plain = 1e-5;
  constexpr double first_not_plain = 1e7;
  expects(std::isfinite(value), "only finite numbers are printed");
  expects(digits >= 1 && digits <= most_digits, "1 to 17 significant digits");
  if (value == 0.0) return "0";
  // 18 digits tell every double from the next power of ten: the exponent is that of the value.
  const int exponent = exponent_of(fmt::format("{:.17e}", value));
  const std::string scientific =
      fmt::format("{:.{}e}", half_away(value, digits - 1 - exponent), digits - 1);
  const int shown_exponent = exponent_of(scientific);
  const std::string mantissa = scientific.substr(0, scientific.find('e'));
  const double size = std::abs(value);
  if (size < smallest_plain || size >= first_not_plain) {
    return fmt::format("{}e{}", mantissa, shown_exponent);
  }
  std::string all_digits;
  std::copy_if(mantissa.begin(), mantissa.end(), std::back_inserter(all_digits),
               [](char c) { return c >= '0' && c <= '9'; });
  const std::string sign = value < 0.0 ? "-" : "";
  if (shown_exponent < 0) {
    return sign + "0." + std::string(static_cast<std::size_t>(-shown_exponent - 1), '0') +
           all_digits;
  }
  const auto whole = static_cast<std::size_t>(shown_exponent) + 1;
  if (all_digits.size() <= whole)
    return sign + all_digits + std::string(whole - all_digits.size(), '0');
  return sign + all_digits.substr(0, whole) + "." + all_digits.substr(whole);
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
