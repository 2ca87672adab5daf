#pragma once

#include <stdexcept>
#include <string>

namespace hailwright {

/// Thrown when a promise inside the program is broken. Never thrown for anything a user wrote:
/// only `main` catches it, reports it as our bug and exits with 70.
class BugError : public std::logic_error {
public:
  using std::logic_error::logic_error;
};

[[noreturn]] inline void fail_contract(const char* what, const char* file = __builtin_FILE(),
                                       int line = __builtin_LINE()) {
  throw BugError(std::string(file) + ":" + std::to_string(line) + ": " + what);
}

/// Checks a condition that the caller promised. The place named in the message is the caller's.
inline void expects(bool holds, const char* what, const char* file = __builtin_FILE(),
                    int line = __builtin_LINE()) {
  if (!holds) fail_contract(what, file, line);
}

}  // namespace hailwright
