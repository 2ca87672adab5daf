#include <cstdio>
#include <exception>

#include "cli/app.hpp"
#include "cli/exit_codes.hpp"

int main(int argc, char** argv) {
  try {
    return hailwright::cli::run(argc, argv);
  } catch (const std::exception& bug) {
    std::fprintf(stderr,
                 "hailwright: this is our mistake, not yours: %s\n"
                 "Please report it with the command and the files.\n",
                 bug.what());
    return hailwright::cli::exit_bug;
  }
}
