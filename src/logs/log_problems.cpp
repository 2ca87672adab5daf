#include "logs/log_problems.hpp"

#include <algorithm>
#include <utility>

#include "logs/log_parser_cells.hpp"

namespace hailwright::detail {

namespace {

/// Cut between characters.
std::string shown_text(std::string_view line, std::size_t marked_end) {
  constexpr std::size_t context = 200;
  std::size_t end = std::min(line.size(), marked_end + context);
  while (end < line.size() && (static_cast<unsigned char>(line[end]) & 0xC0U) == 0x80U)
    ++end;
  return std::string(line.substr(0, end));
}

}  // namespace

bool counts_among_first(std::string_view code, int line, LogBlock& block) {
  auto found = std::find_if(block.counted.begin(), block.counted.end(),
                            [&](const ProblemCount& c) { return c.code == code; });
  if (found == block.counted.end()) found = block.counted.insert(found, {code, 0, 0});
  ++found->count;
  found->last_line = static_cast<std::uint32_t>(line);
  return found->count <= most_problems;
}

void tell_problem(std::string_view code, int line, std::string_view text, std::size_t begin,
                  std::size_t end, ToldProblem told, LogBlock& block) {
  LogProblem problem;
  problem.code = code;
  problem.line = line;
  problem.column = column_of(text, begin);
  problem.length = std::max(1, column_of(text, end) - problem.column);
  problem.message = std::move(told.message);
  problem.hints = std::move(told.hints);
  problem.text = shown_text(text, end);
  block.problems.push_back(std::move(problem));
}

}  // namespace hailwright::detail
