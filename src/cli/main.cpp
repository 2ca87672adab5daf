#include <exception>
#include <iostream>
#include <new>

#include "cli/app.hpp"
#include "cli/end_of_memory.hpp"
#include "cli/exit_codes.hpp"
#include "cli/standard_streams.hpp"

namespace cli = hailwright::cli;

int main(int argc, char** argv) {
  try {
    cli::take_missing_streams();
    cli::prepare_for_end_of_memory();
    const int code = cli::run(argc, argv);
    return code != cli::exit_done && cli::memory_has_ended() ? cli::tell_end_of_memory() : code;
  } catch (const std::bad_alloc&) {
    return cli::tell_end_of_memory();
  } catch (const std::exception& bug) {
    std::cerr << "hailwright: this is our mistake, not yours: " << bug.what()
              << "\nPlease report it with the command and the files.\n";
    return cli::exit_bug;
  }
}
