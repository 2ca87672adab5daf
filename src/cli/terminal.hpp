#pragma once

#include <string>

#include "hailwright/report/render.hpp"

namespace hailwright::cli {

/// Width and colour for standard output: the terminal's, 80 and none elsewhere. NO_COLOR and
/// TERM=dumb are respected.
ConsoleStyle console_style();

/// Writes to standard output and flushes; exit_done, or exit_output with a message.
int write_output(const std::string& text);

/// Writes messages to standard error.
void write_messages(const std::string& text);

/// Whether somebody watches standard error.
bool messages_are_watched();

}  // namespace hailwright::cli
