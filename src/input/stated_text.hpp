#pragma once

#include <limits>
#include <optional>
#include <string_view>

#include "hailwright/core/diagnostic.hpp"
#include "hailwright/core/quantity_text.hpp"
#include "hailwright/metrology/stated.hpp"
#include "input/map_reader.hpp"

namespace hailwright::input {

// Ends of an error's size [ours]: one that could be all of the reading says nothing more by being
// larger, and no other comes near the rest. Amounts in SI.
inline constexpr double least_error_size = 1e-12;
inline constexpr double largest_error_share = 1.0;
inline constexpr double largest_error_size = 1e6;

/// What a statement about an error may be made of. An amount in the unit of the reading always.
struct StatedForm {
  Measure measure = Measure::ratio;
  bool percent = true;  ///< of the reading; has no meaning for a temperature
  bool digits = true;   ///< of a display whose step is known
};

/// `Stated` before it gets its type.
struct StatedParts {
  Shape shape = Shape::rectangular;
  double relative = 0.0;
  double absolute_si = 0.0;
  double digits = 0.0;
  double degrees_of_freedom = std::numeric_limits<double>::infinity();
  SourceSpan origin;
};

/// The four keys that state an error, for key lists: accuracy, spread, within, uncertainty.
inline constexpr std::string_view stated_keys = "accuracy spread within uncertainty";

/// A maker's figure, "1 % + 3 digits": half-widths, rectangular. nullopt for `unknown` and, with an
/// error, for what cannot be read.
std::optional<StatedParts> read_accuracy(const Node& node, std::string_view what,
                                         const StatedForm& form, Diagnostics& notes);

/// The one of the four keys that the mapping has; two of them are an error.
std::optional<StatedParts> read_statement(const MapReader& map, const StatedForm& form);

/// A value with an error of its own. `size_si` is absent when only the value is given.
struct ValueParts {
  double value_si = 0.0;
  Shape shape = Shape::rectangular;
  std::optional<double> size_si;
  double degrees_of_freedom = std::numeric_limits<double>::infinity();
  SourceSpan origin;
};

/// "-0.35 %/K", or {value: ..., half_width | u: ...}, or {value:, expanded:, k:}; nullopt for
/// `unknown`.
std::optional<ValueParts> read_value(const Node& node, std::string_view key, SourceSpan owner,
                                     Measure measure, const Range& range, Diagnostics& notes);

template <class Q>
std::optional<Stated<Q>> stated_as(const std::optional<StatedParts>& parts) {
  if (!parts) return std::nullopt;
  return Stated<Q>{parts->shape,  Ratio::from_si(parts->relative), Q::from_si(parts->absolute_si),
                   parts->digits, parts->degrees_of_freedom,       parts->origin};
}

/// A value whose error is not stated has the size 0.
template <class Q>
std::optional<StatedValue<Q>> stated_value_as(const std::optional<ValueParts>& parts) {
  if (!parts) return std::nullopt;
  return StatedValue<Q>{Q::from_si(parts->value_si), parts->shape,
                        Q::from_si(parts->size_si.value_or(0.0)), parts->origin,
                        parts->degrees_of_freedom};
}

/// The keys of the mappings that this file reads.
inline constexpr KeyList uncertainty_keys{"uncertainty",
                                          "u half_width shape expanded k degrees_of_freedom"};
inline constexpr KeyList value_keys{"a value with its error",
                                    "value u half_width shape expanded k degrees_of_freedom"};

}  // namespace hailwright::input
