#pragma once

namespace hailwright::cli {

/// Parses the command line, runs one command and gives the exit code.
int run(int argc, char** argv);

}  // namespace hailwright::cli
