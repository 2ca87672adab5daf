#include "cli/end_of_memory.hpp"

#include <sys/wait.h>
#include <unistd.h>

#include <new>

#include "cli/exit_codes.hpp"
#include "support/catch.hpp"

namespace {

/// Exit code of a process in which memory has ended; -1: it was aborted.
template <class Run>
int ended_in_child(Run run) {
  const pid_t child = fork();
  if (child == 0) {
    hailwright::cli::prepare_for_end_of_memory();
    run();
    _exit(0);
  }
  int status = 0;
  REQUIRE(waitpid(child, &status, 0) == child);
  return WIFEXITED(status) ? WEXITSTATUS(status) : -1;
}

void fail_to_allocate() {
  std::get_new_handler()();
}

/// As the destructors of some libraries.
void fail_where_nothing_may_be_thrown() noexcept {
  fail_to_allocate();
}

}  // namespace

// Found by lowering `ulimit -v`: "terminate called after throwing an instance of 'std::bad_alloc'".
TEST_CASE("end_of_memory: a failed allocation is an exception, however often") {
  CHECK(ended_in_child([] {
          for (int i = 0; i < 3; ++i) {
            try {
              fail_to_allocate();
              _exit(1);
            } catch (const std::bad_alloc&) {
            }
          }
        }) == 0);
}

TEST_CASE("end_of_memory: a failed allocation is known even where somebody keeps it") {
  CHECK(ended_in_child([] {
          if (hailwright::cli::memory_has_ended()) _exit(1);
          try {
            fail_to_allocate();
          } catch (...) {
          }
          if (!hailwright::cli::memory_has_ended()) _exit(2);
        }) == 0);
}

TEST_CASE("end_of_memory: where nothing may be thrown it is the same exit code") {
  CHECK(ended_in_child(fail_where_nothing_may_be_thrown) == hailwright::cli::exit_memory);
}
