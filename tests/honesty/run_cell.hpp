#pragma once

#include <cstdint>

#include "honesty/cells.hpp"
#include "honesty/tally.hpp"

namespace hailwright::honesty {

struct RunPlan {
  int tests = 20'000;   ///< at each of the three losses
  int from_text = 200;  ///< so many of them are also written and read, and must judge the same
  std::uint64_t seed = 1;
  int threads = 1;  ///< the result is the same for any number
};

/// Simulates one cell. Throws std::runtime_error where a test read from its text is judged
/// otherwise than the same test in memory.
CellResult run_cell(const Cell& cell, const RunPlan& plan);

}  // namespace hailwright::honesty
