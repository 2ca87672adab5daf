#include "cli/end_of_memory.hpp"

#include <unistd.h>

#include <atomic>
#include <cstdlib>
#include <exception>
#include <new>
#include <string_view>

#include "cli/exit_codes.hpp"

namespace hailwright::cli {

namespace {

std::atomic<void*>& reserve() {
  constexpr std::size_t size = std::size_t{1} << 20U;
  static std::atomic<void*> kept{::operator new(size)};
  return kept;
}

void give_up_reserve() {
  ::operator delete(reserve().exchange(nullptr));
  throw std::bad_alloc();
}

bool is_end_of_memory() {
  const std::exception_ptr now = std::current_exception();
  if (!now) return false;
  try {
    std::rethrow_exception(now);
  } catch (const std::bad_alloc&) {
    return true;
  } catch (...) {
    return false;
  }
}

[[noreturn]] void end_at_once() {
  if (is_end_of_memory()) _exit(tell_end_of_memory());
  std::abort();
}

}  // namespace

void prepare_for_end_of_memory() {
  reserve();
  std::set_new_handler(give_up_reserve);
  std::set_terminate(end_at_once);
}

bool memory_has_ended() {
  return reserve() == nullptr;
}

int tell_end_of_memory() {
  constexpr std::string_view text =
      "hailwright: the system gives no more memory\n"
      "  help: close other programs, or raise the limit (ulimit -v)\n";
  // Nothing can be done about a message that nobody takes.
  [[maybe_unused]] const ssize_t written = write(STDERR_FILENO, text.data(), text.size());
  return exit_memory;
}

}  // namespace hailwright::cli
