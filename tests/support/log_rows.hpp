#pragma once

#include <cstddef>
#include <cstdint>
#include <utility>
#include <vector>

#include "hailwright/logs/log_block.hpp"
#include "hailwright/logs/log_pairing.hpp"
#include "hailwright/metrology/random.hpp"

namespace hailwright::testing {

/// Rows of a log, of time [s] and power [W], as `LogStream` gives them: one a line from line 2 on.
LogBlock log_rows(const std::vector<std::pair<double, double>>& time_and_power);
/// So many rows, a second apart from 0 s on.
LogBlock rows_by_second(std::size_t rows, double (*power_w)(double at_s));
/// Another column for them.
void add_column(LogBlock& rows, LogRole role, double (*value)(double at_s));

/// Rows `begin` to `end` of a block as a block of its own, as `LogStream` would cut it: its first
/// line is that of its first row, and its markers go on.
LogBlock part_of(const LogBlock& rows, std::size_t begin, std::size_t end);

/// The rows in blocks that end before these rows; the last goes to the end.
std::vector<LogBlock> split_at(const LogBlock& rows, const std::vector<std::size_t>& ends);
/// So many cuts at random, some of them at the same row: blocks without rows.
std::vector<LogBlock> split_at_random(const LogBlock& rows, int cuts, RandomStream& random);

/// Gives the blocks one after another.
NextBlock blocks_in_turn(std::vector<LogBlock> blocks);

}  // namespace hailwright::testing
