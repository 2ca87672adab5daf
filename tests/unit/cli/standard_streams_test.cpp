#include "cli/standard_streams.hpp"

#include <fcntl.h>
#include <sys/wait.h>
#include <unistd.h>

#include <initializer_list>

#include "support/catch.hpp"

using hailwright::cli::take_missing_streams;

namespace {

/// Closes these, takes what is missing, and gives 0 when the next file gets none of the numbers of
/// output and messages, and both refuse what is written.
int tried_without(std::initializer_list<int> streams) {
  const pid_t child = fork();
  if (child == 0) {
    for (const int stream : streams)
      close(stream);
    take_missing_streams();
    const int next = open("/dev/zero", O_RDONLY);
    int wrong = next == STDOUT_FILENO || next == STDERR_FILENO ? 1 : 0;
    for (const int stream : streams) {
      if (stream != STDIN_FILENO && write(stream, "x", 1) != -1) wrong += 2;
    }
    _exit(wrong);
  }
  int status = 0;
  REQUIRE(waitpid(child, &status, 0) == child);
  return WIFEXITED(status) ? WEXITSTATUS(status) : -1;
}

}  // namespace

// Found by closing standard error: the nameless file of the spreadsheet got its number, was muted
// with it, and the write-up had an empty report.xlsx and exit code 0.
TEST_CASE("standard_streams: no file gets the number of a closed stream") {
  CHECK(tried_without({STDOUT_FILENO}) == 0);
  CHECK(tried_without({STDERR_FILENO}) == 0);
  CHECK(tried_without({STDOUT_FILENO, STDERR_FILENO}) == 0);
  CHECK(tried_without({STDIN_FILENO, STDOUT_FILENO, STDERR_FILENO}) == 0);
  CHECK(tried_without({}) == 0);
}
