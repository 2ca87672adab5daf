#include "cli/terminal.hpp"

#include <sys/ioctl.h>
#include <unistd.h>

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

bool set_and_not_empty(const char* name) {
  const char* value = std::getenv(name);  // NOLINT(concurrency-mt-unsafe): one thread
  return value != nullptr && *value != '\0';
}

int terminal_width() {
  winsize size{};
  // NOLINTNEXTLINE(cppcoreguidelines-pro-type-vararg): there is no other call for it
  if (ioctl(STDOUT_FILENO, TIOCGWINSZ, &size) == 0 && size.ws_col > 0) return size.ws_col;
  return 80;
}

}  // namespace

ConsoleStyle console_style() {
  ConsoleStyle style;
  if (isatty(STDOUT_FILENO) == 0) return style;
  style.width = terminal_width();
  const char* term = std::getenv("TERM");  // NOLINT(concurrency-mt-unsafe): one thread
  const bool dumb = term == nullptr || std::string_view(term) == "dumb";
  style.colour = !dumb && !set_and_not_empty("NO_COLOR");
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
