#pragma once

#include <string>

#include "hailwright/input/readers.hpp"

namespace hailwright::cli {

/// Reads a regular file of at most so many bytes. Anything else - a folder, a device, a pipe, a
/// file too large - is told apart and never waited for.
Loaded load_file(const std::string& path, std::size_t largest);

}  // namespace hailwright::cli
