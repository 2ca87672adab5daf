#include <exception>
#include <iostream>

#include "cli/app.hpp"
#include "cli/exit_codes.hpp"

int main(int argc, char** argv) {
  try {
    return hailwright::cli::run(argc, argv);
  } catch (const std::exception& bug) {
    std::cerr << "hailwright: this is our mistake, not yours: " << bug.what()
              << "\nPlease report it with the command and the files.\n";
    return hailwright::cli::exit_bug;
  }
}
