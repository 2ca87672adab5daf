#pragma once

#include <cstddef>
#include <string>
#include <string_view>
#include <vector>

#include "hailwright/core/quantity_text.hpp"

namespace hailwright::detail {

/// A number at the start of a text, before any unit.
struct LeadingNumber {
  double value = 0.0;
  double step = 0.0;      ///< size of its last digit
  std::size_t begin = 0;  ///< bytes of the text, with the sign
  std::size_t end = 0;
};

/// Reads the number that a text starts with, by the grammar of `read_number`. What follows it is
/// left to the caller, unless it can only be a slip inside a number.
TextResult<LeadingNumber> leading_number(std::string_view text, char decimal);

/// Position after the blanks from `pos` on: space, tab, no-break space, narrow no-break space.
std::size_t skip_blanks(std::string_view text, std::size_t pos);

/// Position after the decimal digits from `pos` on.
std::size_t skip_digits(std::string_view text, std::size_t pos);

/// A problem of the bytes from `begin` to `end`, counted in characters.
TextProblem problem_at(std::string_view code, std::string_view text, std::size_t begin,
                       std::size_t end, std::string message, std::vector<std::string> hints = {});

/// U10 for these bytes.
TextProblem out_of_range(std::string_view text, std::size_t begin, std::size_t end);

}  // namespace hailwright::detail
