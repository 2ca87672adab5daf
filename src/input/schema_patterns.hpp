#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "hailwright/core/quantity_text.hpp"
#include "input/stated_text.hpp"

/// What the readers take, as regular expressions (ECMA-262) over a whole text. They take every text
/// that the reader takes, and besides only what an expression cannot tell: numbers too large to
/// compute with, amounts out of range, two terms of one kind. Bytes beyond ASCII stand alone, never
/// inside [], so that they mean the same to a matcher of bytes and to one of characters.
namespace hailwright::input::pattern {

/// `read_amount`: "25 mm", "-0.35 %/K".
std::string amount(Measure measure);
/// `read_count`: "7".
std::string count();
/// `read_number`: "1.96".
std::string number();
/// `read_sides`, from `least` to `most` of them: "1020 x 510 x 35 mm".
std::string sides(std::size_t least, std::size_t most);
/// `read_grid`: "9 x 4".
std::string grid();
/// `read_money`: "89 EUR".
std::string money();
/// `is_iso_date`, without the lengths of the months.
std::string date();

/// `read_accuracy`: "1 % + 3 digits", or "unknown".
std::string accuracy(const StatedForm& form);
/// One size of an error: "0.3 g", "1 %".
std::string size(const StatedForm& form);
/// `within`: "0.6 g, 95 %".
std::string within(const StatedForm& form);

/// One of these texts without regard to case and the number of blanks, as `find_grade` compares.
std::string any_of_plain(const std::vector<std::string>& texts);

}  // namespace hailwright::input::pattern
