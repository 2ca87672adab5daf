#pragma once

#include <cstddef>
#include <string>
#include <string_view>
#include <vector>

#include "hailwright/logs/log_block.hpp"

namespace hailwright::detail {

/// What a problem says.
struct ToldProblem {
  std::string message;
  std::vector<std::string> hints;
};

/// Counts a problem of a line of a block. True when it is among the first of its code, which are
/// told.
bool counts_among_first(std::string_view code, int line, LogBlock& block);

/// Tells of these bytes of a line of the block. The line is kept up to a little behind them.
void tell_problem(std::string_view code, int line, std::string_view text, std::size_t begin,
                  std::size_t end, ToldProblem told, LogBlock& block);

/// Counts and, when it is among the first, tells; `tell` makes the words then.
template <class Tell>
void add_problem(std::string_view code, int line, std::string_view text, std::size_t begin,
                 std::size_t end, LogBlock& block, Tell tell) {
  if (counts_among_first(code, line, block))
    tell_problem(code, line, text, begin, end, tell(), block);
}

}  // namespace hailwright::detail
