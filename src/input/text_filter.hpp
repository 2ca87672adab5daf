#pragma once

#include <cstdint>
#include <string>
#include <string_view>

#include "hailwright/core/diagnostic.hpp"

namespace hailwright::input {

/// What a text is about to be read as: YAML has one rule more (no % at the start of a line), and
/// tables mostly come from spreadsheets.
enum class TextKind { yaml, table };

/// Takes away a UTF-8 byte order mark and turns CRLF into LF, so that every later count of lines
/// and columns is the same for all editors. Other bytes stay.
std::string plain_line_ends(std::string text);

/// Checks that the bytes are a text: UTF-8, no control characters but tab and line feed, and for
/// YAML no directive. Reports the first fault of each sort with the number of its like; returns
/// true when there is none. `text` is what `plain_line_ends` gave.
bool check_bytes(std::uint32_t file, std::string_view text, TextKind kind, Diagnostics& notes);

/// The place of a byte of a text: line, and column in characters.
SourceSpan place_of_byte(std::uint32_t file, std::string_view text, std::size_t offset,
                         int length = 1);

}  // namespace hailwright::input
