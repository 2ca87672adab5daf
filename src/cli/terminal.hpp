#pragma once

#include <optional>
#include <string>
#include <string_view>

#include "hailwright/report/render.hpp"

namespace hailwright::cli {

/// Whether a locale's name says that text is in UTF-8: "de_DE.UTF-8", "C.utf8".
bool says_utf8(std::string_view locale);

/// The width that COLUMNS holds; nothing when that is no whole number above 0.
std::optional<int> columns_said(std::string_view text);

/// Width, colour and characters for standard output: the terminal's; 80, none and plain ones
/// elsewhere. COLUMNS, NO_COLOR and TERM=dumb are respected, and what LC_ALL, LC_CTYPE or LANG
/// says. A width that somebody sets counts wherever the text goes.
ConsoleStyle console_style();

/// Writes to standard output and flushes; exit_done, or exit_output with a message. UTF-8, but on a
/// terminal whose locale does not say so `in_ascii`; `write_messages` likewise.
int write_output(const std::string& text);

/// Writes messages to standard error.
void write_messages(const std::string& text);

/// Whether somebody watches standard error.
bool messages_are_watched();

}  // namespace hailwright::cli
