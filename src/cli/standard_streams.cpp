#include "cli/standard_streams.hpp"

#include <fcntl.h>
#include <unistd.h>

#include <cerrno>
#include <initializer_list>

namespace hailwright::cli {

void take_missing_streams() {
  for (const int stream : {STDOUT_FILENO, STDERR_FILENO}) {
    // NOLINTNEXTLINE(cppcoreguidelines-pro-type-vararg): there is no other call for it
    if (fcntl(stream, F_GETFD) >= 0 || errno != EBADF) continue;
    // For reading only, so that writing fails.
    // NOLINTNEXTLINE(cppcoreguidelines-pro-type-vararg): there is no other call for it
    const int nothing = open("/dev/null", O_RDONLY);
    if (nothing < 0 || nothing == stream) continue;
    dup2(nothing, stream);
    close(nothing);
  }
}

}  // namespace hailwright::cli
