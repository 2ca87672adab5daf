#include "cli/muted_errors.hpp"

#include <fcntl.h>
#include <unistd.h>

#include <cstdio>

namespace hailwright::cli {

MutedErrors::MutedErrors()
    // NOLINTNEXTLINE(cppcoreguidelines-pro-type-vararg): there is no other call for it
    : before_(fcntl(STDERR_FILENO, F_DUPFD_CLOEXEC, STDERR_FILENO + 1)) {
  // NOLINTNEXTLINE(cppcoreguidelines-pro-type-vararg): there is no other call for it
  const Descriptor nowhere(open("/dev/null", O_WRONLY | O_CLOEXEC));
  static_cast<void>(std::fflush(stderr));  // nowhere is left to say that it failed
  if (before_.get() >= 0 && nowhere.get() >= 0) dup2(nowhere.get(), STDERR_FILENO);
}

MutedErrors::~MutedErrors() {
  static_cast<void>(std::fflush(stderr));
  if (before_.get() >= 0) dup2(before_.get(), STDERR_FILENO);
}

}  // namespace hailwright::cli
