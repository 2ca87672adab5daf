#pragma once

#include "cli/readings_options.hpp"

namespace hailwright::cli {

/// Reads what loggers wrote, prints what it came to on standard output and gives the exit code.
int run_readings(const ReadingsOptions& options);

}  // namespace hailwright::cli
