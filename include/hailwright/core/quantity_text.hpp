#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "hailwright/core/quantity.hpp"

namespace hailwright {

/// What kind of amount a text must be. Wider than the dimension: a temperature point is not a
/// temperature difference although both are written in degC.
enum class Measure {
  length,
  mass,
  density,
  time,
  frame_rate,
  speed,
  energy,
  power,
  irradiance,
  pressure,
  voltage,
  current,
  resistance,
  temperature,              ///< a point on a scale; SI value in kelvin
  temperature_difference,   ///< SI value in kelvin
  temperature_coefficient,  ///< relative change per kelvin; SI value in 1/K
  ratio,                    ///< written in %; SI value is the fraction
  angle                     ///< SI value in radian
};

/// "a length", "a speed": for messages.
std::string_view name(Measure measure);

/// One row of the closed unit table (docs/units.md). `si = number * factor + offset`.
struct Unit {
  std::string_view symbol;
  Measure measure;
  double factor;
  double offset = 0.0;
};

/// Every unit the program reads. There are no others, no prefixes and no compound expressions:
/// a typing slip must never become a valid speed.
const std::vector<Unit>& units();

/// The unit with this symbol and measure; nullptr when there is none.
const Unit* find_unit(std::string_view symbol, Measure measure);

/// A number read from text, in SI, with the size of its last typed digit.
struct Amount {
  double si = 0.0;
  double step_si = 0.0;  ///< one unit of the last decimal typed: 0.1 for "7.5", 1 for "75"
};

/// What is wrong with a text, where in it, and how to write it.
struct TextProblem {
  std::string_view code;
  std::size_t offset = 0;  ///< first character concerned, from 0
  std::size_t length = 0;
  std::string message;
  std::vector<std::string> hints;
};

template <class T>
struct TextResult {
  std::optional<T> value;
  std::optional<TextProblem> problem;  ///< set exactly when value is not
};

/// A finite decimal number: sign, digits, one point, exponent of ten. No unit, no comma, no octal,
/// no hex, no nan, no inf, no underscore. `decimal` is ',' for tables whose decimal mark is a
/// comma. `step_si` of the result is the size of its last digit.
TextResult<Amount> read_number(std::string_view text, char decimal = '.');

/// A whole number, 0 or more, in decimal digits without leading zeros.
TextResult<int> read_count(std::string_view text);

/// A number with its unit: "25 mm", "62 mph", "-0.35 %/K". The unit is obligatory and must be of
/// the measure asked for. "±" is refused with a message that offers the three plain ways.
TextResult<Amount> read_amount(std::string_view text, Measure measure);

/// "89 EUR", "89.50 USD": a currency is three capital letters.
TextResult<Money> read_money(std::string_view text);

/// A number to so many decimals, "-0" never, thousands never grouped, locale never consulted.
std::string fixed(double value, int decimals);

/// A number to so many significant digits, in plain (not scientific) notation while
/// 1e-5 <= |value| < 1e7.
std::string significant(double value, int digits);

/// Decimals that show a value to the second digit of its uncertainty, between 0 and 6
/// (JCGM 100:2008, 7.2.6: at most two significant digits of u).
int decimals_for(double uncertainty);

/// An amount in a unit of the table: `in_unit(energy.si(), "J", 2)` gives "1.99 J".
/// Contract: the symbol is in the table.
std::string in_unit(double si, std::string_view symbol, int decimals);

}  // namespace hailwright
