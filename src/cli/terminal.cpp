#include "cli/terminal.hpp"

#include <sys/ioctl.h>
#include <unistd.h>

#include <cctype>
#include <cerrno>
#include <charconv>
#include <cstdio>
#include <cstdlib>
#include <iostream>
#include <string_view>
#include <system_error>

#include "cli/exit_codes.hpp"

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

int terminal_width() {
  winsize size{};
  // NOLINTNEXTLINE(cppcoreguidelines-pro-type-vararg): there is no other call for it
  if (ioctl(STDOUT_FILENO, TIOCGWINSZ, &size) == 0 && size.ws_col > 0) return size.ws_col;
  return 80;
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

ConsoleStyle console_style() {
  ConsoleStyle style;
  if (isatty(STDOUT_FILENO) == 0) return style;
  style.width = terminal_width();
  const bool dumb = variable("TERM").empty() || variable("TERM") == "dumb";
  style.colour = !dumb && variable("NO_COLOR").empty();
  style.unicode = !dumb && says_utf8(locale_of_characters());
  return style;
}

int write_output(const std::string& text) {
  const bool written =
      std::fwrite(text.data(), 1, text.size(), stdout) == text.size() && std::fflush(stdout) == 0;
  if (written) return exit_done;
  write_messages("hailwright: the output could not be written: " +
                 std::generic_category().message(errno) + "\n");
  return exit_output;
}

void write_messages(const std::string& text) {
  std::cerr << text << std::flush;
}

bool messages_are_watched() {
  return isatty(STDERR_FILENO) != 0;
}

}  // namespace hailwright::cli
