#include "input/sides_text.hpp"

#include <fmt/format.h>

#include <algorithm>

#include "core/quoted.hpp"
#include "hailwright/core/contract.hpp"
#include "hailwright/core/source.hpp"

namespace hailwright::input {

namespace {

/// A piece between two x, with its place in the text.
struct Side {
  std::string_view text;
  std::size_t offset;  ///< characters
};

/// What an amount may have around it.
bool is_blank(char c) {
  return c == ' ' || c == '\t';
}

std::vector<Side> split(std::string_view text) {
  constexpr std::string_view times = "×";
  std::vector<Side> sides;
  std::size_t begin = 0;
  const auto add = [&](std::size_t end) {
    std::size_t first = begin;
    while (first < end && is_blank(text[first]))
      ++first;
    std::size_t last = end;
    while (last > first && is_blank(text[last - 1]))
      --last;
    sides.push_back({text.substr(first, last - first), count_characters(text.substr(0, first))});
  };
  for (std::size_t i = 0; i < text.size();) {
    const bool cross = text.substr(i).starts_with(times);
    if (text[i] == 'x' || cross) {
      add(i);
      i += cross ? times.size() : 1;
      begin = i;
    } else {
      ++i;
    }
  }
  add(text.size());
  return sides;
}

TextProblem moved(TextProblem problem, const Side& side) {
  problem.offset += side.offset;
  return problem;
}

/// The unit at the end of an amount that `read_amount` took, without blanks around it.
const Unit& unit_of(std::string_view amount) {
  for (std::size_t i = 0; i < amount.size(); ++i) {
    if (const Unit* unit = find_unit(amount.substr(i), Measure::length)) return *unit;
  }
  fail_contract("an amount ends with its unit");
}

TextProblem wrong_number(std::string_view text, std::size_t found, std::size_t least,
                         std::size_t most, std::string_view example) {
  const std::string wanted =
      least == most ? fmt::format("{}", least) : fmt::format("{} or {}", least, most);
  return {"U20",
          0,
          count_characters(text),
          fmt::format("{} numbers with x between them were expected, found {}", wanted, found),
          {fmt::format("write it as {}", example)}};
}

}  // namespace

TextResult<std::vector<Length>> read_sides(std::string_view text, std::size_t least,
                                           std::size_t most) {
  const std::vector<Side> sides = split(text);
  if (sides.size() < least || sides.size() > most) {
    return {std::nullopt, wrong_number(text, sides.size(), least, most,
                                       most == 3 ? "1020 x 510 x 35 mm" : "255 x 12 mm")};
  }
  const TextResult<Amount> last = read_amount(sides.back().text, Measure::length);
  if (last.problem) return {std::nullopt, moved(*last.problem, sides.back())};
  const Unit& unit = unit_of(sides.back().text);
  std::vector<Length> lengths;
  for (const Side& side : sides) {
    const bool is_last = &side == &sides.back();
    const TextResult<Amount> read = is_last ? last : read_number_in(side.text, unit);
    if (read.problem) {
      TextProblem problem = moved(*read.problem, side);
      problem.hints.emplace_back("the unit stands once, at the end: 255 x 12 mm");
      return {std::nullopt, std::move(problem)};
    }
    if (read.value->si < 0.0) {
      return {std::nullopt, TextProblem{"R01",
                                        side.offset,
                                        count_characters(side.text),
                                        fmt::format("{} is negative", detail::quoted(side.text)),
                                        {"positions count from the left and the lower edge"}}};
    }
    lengths.push_back(Length::from_si(read.value->si));
  }
  return {std::move(lengths), std::nullopt};
}

TextResult<std::pair<int, int>> read_grid(std::string_view text) {
  const std::vector<Side> sides = split(text);
  if (sides.size() != 2) {
    return {std::nullopt, wrong_number(text, sides.size(), 2, 2, "9 x 4")};
  }
  std::pair<int, int> grid;
  for (const Side& side : sides) {
    const TextResult<int> count = read_count(side.text);
    if (count.problem) return {std::nullopt, moved(*count.problem, side)};
    constexpr int most_cells = 200;
    if (*count.value < 1 || *count.value > most_cells) {
      return {std::nullopt, TextProblem{"R02",
                                        side.offset,
                                        count_characters(side.text),
                                        fmt::format("from 1 to {} cells were expected, found {}",
                                                    most_cells, *count.value),
                                        {}}};
    }
    (&side == &sides.front() ? grid.first : grid.second) = *count.value;
  }
  return {grid, std::nullopt};
}

}  // namespace hailwright::input
