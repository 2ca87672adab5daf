#include "cli/terminal.hpp"

#include <sys/ioctl.h>
#include <unistd.h>

#include <cctype>
#include <cerrno>
#include <charconv>
#include <cstdio>
#include <cstdlib>
#include <iostream>
#include <optional>
#include <string_view>
#include <system_error>

#include "cli/exit_codes.hpp"
#include "cli/plain_text.hpp"

namespace hailwright::cli {

namespace {

/// Empty when it is not set, which comes to the same (POSIX.1-2017, 8.2; from memory).
std::string_view variable(const char* name) {
  const char* value = std::getenv(name);  // NOLINT(concurrency-mt-unsafe): one thread
  return value == nullptr ? std::string_view() : value;
}

/// The first of these that is set names the locale of characters, in this order (ibidem).
std::string_view locale_of_characters() {
  for (const char* name : {"LC_ALL", "LC_CTYPE"}) {
    if (!variable(name).empty()) return variable(name);
  }
  return variable("LANG");
}

/// Nothing where standard output is no terminal, or one that does not know.
std::optional<int> terminal_width() {
  winsize size{};
  // NOLINTNEXTLINE(cppcoreguidelines-pro-type-vararg): there is no other call for it
  if (ioctl(STDOUT_FILENO, TIOCGWINSZ, &size) == 0 && size.ws_col > 0) return size.ws_col;
  return std::nullopt;
}

/// A stream's text as it is written: in ASCII on a terminal that does not show UTF-8.
std::string as_shown(int stream, const std::string& text) {
  if (isatty(stream) == 0 || says_utf8(locale_of_characters())) return text;
  return in_ascii(text);
}

}  // namespace

bool says_utf8(std::string_view locale) {
  const std::size_t dot = locale.find('.');
  if (dot == std::string_view::npos) return false;
  std::string codeset;
  for (const char c : locale.substr(dot + 1, locale.find('@') - dot - 1)) {
    if (c != '-') codeset += static_cast<char>(std::tolower(static_cast<unsigned char>(c)));
  }
  return codeset == "utf8";
}

std::optional<int> columns_said(std::string_view text) {
  int columns = 0;
  const auto [stop, error] = std::from_chars(text.data(), text.data() + text.size(), columns);
  if (error != std::errc() || stop != text.data() + text.size() || columns <= 0)
    return std::nullopt;
  return columns;
}

ConsoleStyle console_style() {
  ConsoleStyle style;
  const std::optional<int> said = columns_said(variable("COLUMNS"));
  style.width = said ? *said : terminal_width().value_or(style.width);
  if (isatty(STDOUT_FILENO) == 0) return style;
  const bool dumb = variable("TERM").empty() || variable("TERM") == "dumb";
  style.colour = !dumb && variable("NO_COLOR").empty();
  style.unicode = !dumb && says_utf8(locale_of_characters());
  return style;
}

int write_output(const std::string& text) {
  const std::string shown = as_shown(STDOUT_FILENO, text);
  const bool written = std::fwrite(shown.data(), 1, shown.size(), stdout) == shown.size() &&
                       std::fflush(stdout) == 0;
  if (written) return exit_done;
  write_messages("hailwright: the output could not be written: " +
                 std::generic_category().message(errno) + "\n");
  return exit_output;
}

void write_messages(const std::string& text) {
  std::cerr << as_shown(STDERR_FILENO, text) << std::flush;
}

bool messages_are_watched() {
  return isatty(STDERR_FILENO) != 0;
}

}  // namespace hailwright::cli
