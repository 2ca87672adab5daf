#pragma once

#include <string_view>

namespace hailwright::detail {

// The rules of the style sheet, by what they are for. Colours come as variables of the palettes;
// each rule begins on a line of its own.

/// The page: its type, its parts and their numbers, its contents, its columns.
std::string_view page_rules();
/// Every kind of block.
std::string_view block_rules();
/// What a reader sees first: the sentence, the facts, the picture, the cautions in short.
std::string_view opening_rules();
/// All of it on paper; to stand inside "@media print".
std::string_view paper_rules();

}  // namespace hailwright::detail
