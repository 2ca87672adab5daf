#pragma once

#include <string>
#include <string_view>
#include <vector>

namespace hailwright::detail {

enum class Weight { usual, bold };

/// Width of a text in units of the picture at most, whatever usual sans-serif font a reader has, so
/// that boxes kept apart by it stay apart. Characters of ASCII by the wider one of two common
/// fonts, DejaVu Sans 2.37 and Liberation Sans 2.1 (their `hmtx` tables, read); the others by their
/// columns
/// (`character_width`): 1 em for one column, 1.25 em for two [ours]. Bold takes a quarter more,
/// which no letter of their bold faces exceeds.
double text_units(std::string_view text, double size, Weight weight = Weight::usual);

/// The text tidied to one line and, where it is wider than `most`, cut with "..." at its end. Say
/// the whole name in the picture's description or in a table.
std::string shortened_to(std::string_view text, double most, double size,
                         Weight weight = Weight::usual);

/// Words filled into lines of `most` units; a word wider than that is cut as by `shortened_to`.
std::vector<std::string> wrapped_to(std::string_view text, double most, double size);

}  // namespace hailwright::detail
