#pragma once

#include <concepts>
#include <cstddef>
#include <optional>
#include <string>
#include <string_view>
#include <type_traits>
#include <utility>
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
  force,
  voltage,
  current,
  resistance,
  temperature,              ///< a point on a scale; SI value in kelvin
  temperature_difference,   ///< SI value in kelvin
  temperature_coefficient,  ///< relative change per kelvin; SI value in 1/K
  ratio,                    ///< written in %; SI value is the fraction
  angle,                    ///< SI value in radian
  volume
};

/// "a length", "a speed": for messages.
std::string_view name(Measure measure);

/// The measure of a quantity type: `MeasureOf<Speed>::value`. A type without one is not read from
/// text.
template <class Q>
struct MeasureOf;
template <Measure M>
using MeasureConstant = std::integral_constant<Measure, M>;
template <>
struct MeasureOf<Length> : MeasureConstant<Measure::length> {};
template <>
struct MeasureOf<Volume> : MeasureConstant<Measure::volume> {};
template <>
struct MeasureOf<Mass> : MeasureConstant<Measure::mass> {};
template <>
struct MeasureOf<Density> : MeasureConstant<Measure::density> {};
template <>
struct MeasureOf<Time> : MeasureConstant<Measure::time> {};
template <>
struct MeasureOf<FrameRate> : MeasureConstant<Measure::frame_rate> {};
template <>
struct MeasureOf<Speed> : MeasureConstant<Measure::speed> {};
template <>
struct MeasureOf<Energy> : MeasureConstant<Measure::energy> {};
template <>
struct MeasureOf<Power> : MeasureConstant<Measure::power> {};
template <>
struct MeasureOf<Irradiance> : MeasureConstant<Measure::irradiance> {};
template <>
struct MeasureOf<Pressure> : MeasureConstant<Measure::pressure> {};
template <>
struct MeasureOf<Force> : MeasureConstant<Measure::force> {};
template <>
struct MeasureOf<Voltage> : MeasureConstant<Measure::voltage> {};
template <>
struct MeasureOf<Current> : MeasureConstant<Measure::current> {};
template <>
struct MeasureOf<Resistance> : MeasureConstant<Measure::resistance> {};
template <>
struct MeasureOf<TemperaturePoint> : MeasureConstant<Measure::temperature> {};
template <>
struct MeasureOf<TemperatureDifference> : MeasureConstant<Measure::temperature_difference> {};
template <>
struct MeasureOf<TemperatureCoefficient> : MeasureConstant<Measure::temperature_coefficient> {};
template <>
struct MeasureOf<Ratio> : MeasureConstant<Measure::ratio> {};
template <>
struct MeasureOf<Angle> : MeasureConstant<Measure::angle> {};

/// A quantity type that has a measure.
template <class Q>
concept Measured = requires {
  { MeasureOf<Q>::value } -> std::convertible_to<Measure>;
};

/// A quantity from its value in SI; a temperature point from kelvin.
template <Measured Q>
constexpr Q quantity_from_si(double si) {
  if constexpr (std::is_same_v<Q, TemperaturePoint>) {
    return TemperaturePoint::from_kelvin(si);
  } else {
    return Q::from_si(si);
  }
}

/// The value of a quantity in SI; kelvin of a temperature point.
template <Measured Q>
constexpr double value_in_si(Q quantity) {
  if constexpr (std::is_same_v<Q, TemperaturePoint>) {
    return quantity.kelvin();
  } else {
    return quantity.si();
  }
}

/// One row of the closed unit table (docs/units.md). `si = number * factor + offset`; convert with
/// `to_si` and `number_in`, which round once where the unit is a decimal part of the SI unit.
struct Unit {
  std::string_view symbol;
  Measure measure;
  double factor;
  double offset = 0.0;
};

/// Every unit the program reads. There are no others, no prefixes and no compound expressions:
/// a typing slip must never become a valid speed. A unit may have several spellings, each a row;
/// the first is the one to print.
const std::vector<Unit>& units();

/// The unit with this symbol and measure; nullptr when there is none. Letter case matters.
const Unit* find_unit(std::string_view symbol, Measure measure);

/// A number of this unit in SI: 25 of mm is 0.025, bit for bit the literal `25.0_mm`.
double to_si(double number, const Unit& unit);

/// How many of this unit an SI value is: the inverse of `to_si`.
double number_in(double si, const Unit& unit);

/// A number read from text, in SI, with the size of its last typed digit.
struct Amount {
  double si = 0.0;       ///< never negative zero
  double step_si = 0.0;  ///< one unit of the last decimal typed: 0.1 for "7.5", 1 for "75"
};

/// What is wrong with a text, where in it, and how to write it.
/// `offset` and `length` count characters (UTF-8 code points) as SourceSpan does, so that a reader
/// adds `offset` to the column of the text. A hint "write X" replaces the marked part by X.
struct TextProblem {
  std::string_view code;   ///< U01 to U16, listed at the top of quantity_text.cpp
  std::size_t offset = 0;  ///< first character concerned, from 0
  std::size_t length = 0;  ///< 0 only for an empty text
  std::string message;
  std::vector<std::string> hints;
};

template <class T>
struct TextResult {
  std::optional<T> value;
  std::optional<TextProblem> problem;  ///< set exactly when value is not
};

/// A finite decimal number: sign (+, - or U+2212), digits, one point, exponent of ten; at least one
/// digit. No unit, no grouping, no octal, no hex, no nan, no inf, no underscore; blanks around
/// it are skipped. `decimal` is ',' for tables whose decimal mark is a comma.
/// `step_si` of the result is the size of its last digit: 100 for "1.5e3".
TextResult<Amount> read_number(std::string_view text, char decimal = '.');

/// A number whose unit stands elsewhere: a cell of a table, by the unit of its column.
TextResult<Amount> read_number_in(std::string_view text, const Unit& unit, char decimal = '.');

/// A unit alone, as in the head of a table column. Must be of the measure asked for.
TextResult<Unit> read_unit(std::string_view text, Measure measure);

/// A whole number, 0 or more, in decimal digits without sign and leading zeros, up to the largest
/// int.
TextResult<int> read_count(std::string_view text);

/// A number with its unit: "25 mm", "62 mph", "-0.35 %/K". The unit is obligatory and must be of
/// the measure asked for; blanks between the two may be none, spaces, tabs, U+00A0 or U+202F.
/// "±" is refused with a message that offers the three plain ways. No range is checked here: a
/// negative length is the reader's business.
TextResult<Amount> read_amount(std::string_view text, Measure measure);

/// `read_amount` for a quantity type: `read_quantity<Speed>("62 mph")`. A temperature point is read
/// on its scale, a temperature difference as a difference (36 degF is 20 K).
template <Measured Q>
TextResult<Q> read_quantity(std::string_view text) {
  TextResult<Amount> amount = read_amount(text, MeasureOf<Q>::value);
  TextResult<Q> result;
  if (amount.value) {
    result.value = quantity_from_si<Q>(amount.value->si);
  } else {
    result.problem = std::move(amount.problem);
  }
  return result;
}

/// "89 EUR", "89.50 USD": a currency is three capital letters.
TextResult<Money> read_money(std::string_view text);

/// A number to so many decimals (0 to 30), "-0" never, thousands never grouped, locale never
/// consulted. A half rounds away from zero, by what the double really is: 0.125 gives 0.13, but
/// 1.005 gives 1.00 because the double is 1.00499999999999989... Contract: finite.
std::string fixed(double value, int decimals);

/// A number to so many significant digits (1 to 17), rounded as `fixed` does, in plain (not
/// scientific) notation while 1e-5 <= |value| < 1e7, else as "1.50e8". Zero is "0". Contract:
/// finite.
std::string significant(double value, int digits);

/// Decimals that show a value to the second digit of its uncertainty, between 0 and 6
/// (JCGM 100:2008, 7.2.6: at most two significant digits of u). No uncertainty (0) gives 6, an
/// infinite one 0. Contract: not negative, not nan.
int decimals_for(double uncertainty);

/// An amount in a unit of the table: `in_unit(energy.si(), "J", 2)` gives "1.99 J". "degC" and
/// "degF" are taken as points on their scale; a difference is shown in K, or by its type below.
/// Contract: the symbol is in the table, the value finite.
std::string in_unit(double si, std::string_view symbol, int decimals);

/// The same for a unit of this measure. Contract: the table has the symbol for the measure.
std::string in_unit(double si, Measure measure, std::string_view symbol, int decimals);

/// The same for a quantity: `in_unit(energy, "J", 2)`. Contract: the unit is of its measure.
template <Measured Q>
std::string in_unit(Q quantity, std::string_view symbol, int decimals) {
  return in_unit(value_in_si(quantity), MeasureOf<Q>::value, symbol, decimals);
}

}  // namespace hailwright
