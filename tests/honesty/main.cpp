// Simulates whole tests, lets them be judged, and counts how often what is said is true
// (MEASUREMENT M17). Prints docs/honesty.md's tables. Exit status: 0 all promises kept, 1 one
// broken, 2 usage.
#include <algorithm>
#include <charconv>
#include <cstdint>
#include <cstdio>
#include <exception>
#include <optional>
#include <string>
#include <string_view>
#include <thread>
#include <vector>

#include <fmt/format.h>

#include "honesty/cells.hpp"
#include "honesty/run_cell.hpp"
#include "honesty/tables.hpp"

namespace {

using namespace hailwright::honesty;

constexpr const char* usage =
    "usage: hailwright_honesty [--tests N] [--from-text N] [--seed N] [--threads N]\n"
    "                          [--margin N] [--cell WORDS]... [--list]\n"
    "  --tests N      tests of each cell at each of three losses; 20000\n"
    "  --from-text N  so many of these are also written as files and read; 200\n"
    "  --seed N       another seed, other tests; 1\n"
    "  --threads N    as many as the processor has cores; the counts do not depend on it\n"
    "  --margin N     standard errors conceded where a limit is checked; 0\n"
    "  --cell WORDS   only cells whose name holds the words; may be repeated\n"
    "  --list         names of the cells\n";

struct Options {
  RunPlan plan;
  double margin = 0.0;
  std::vector<std::string> cells;
  bool list = false;
};

template <class Number>
bool read_number(std::string_view text, Number least, Number& number) {
  const auto [stop, error] = std::from_chars(text.data(), text.data() + text.size(), number);
  return error == std::errc() && stop == text.data() + text.size() && number >= least;
}

std::optional<Options> read_options(int count, char** words) {
  Options o;
  o.plan.threads = static_cast<int>(std::max(1U, std::thread::hardware_concurrency()));
  for (int i = 1; i < count; ++i) {
    const std::string_view option = words[i];
    if (option == "--list") {
      o.list = true;
      continue;
    }
    if (++i == count) return std::nullopt;
    const std::string_view value = words[i];
    bool good = true;
    if (option == "--tests") {
      good = read_number(value, 1, o.plan.tests);
    } else if (option == "--from-text") {
      good = read_number(value, 0, o.plan.from_text);
    } else if (option == "--seed") {
      good = read_number(value, std::uint64_t{0}, o.plan.seed);
    } else if (option == "--threads") {
      good = read_number(value, 1, o.plan.threads) && o.plan.threads <= 64;
    } else if (option == "--margin") {
      good = read_number(value, 0.0, o.margin);
    } else if (option == "--cell") {
      o.cells.emplace_back(value);
    } else {
      good = false;
    }
    if (!good) return std::nullopt;
  }
  return o;
}

bool wanted(const Options& options, const Cell& cell) {
  const std::string name = cell.name();
  return options.cells.empty() ||
         std::any_of(options.cells.begin(), options.cells.end(),
                     [&](const std::string& part) { return name.find(part) != std::string::npos; });
}

/// Words asked for that are in no cell's name, each with a complaint.
std::string unknown_cells(const Options& options) {
  std::string complaints;
  const std::vector<Cell> cells = all_cells();
  for (const std::string& words : options.cells) {
    const bool known = std::any_of(cells.begin(), cells.end(), [&](const Cell& cell) {
      return cell.name().find(words) != std::string::npos;
    });
    if (!known) complaints += fmt::format("- no cell is called {}\n", words);
  }
  return complaints;
}

/// What is wrong with a cell's result, by what is asked of its part.
std::vector<std::string> complaints_about(const Cell& cell, const CellResult& result,
                                          double margin) {
  std::vector<std::string> complaints = faults(result);
  if (cell.part == Part::shown) return complaints;
  std::vector<std::string> broken = broken_promises(result, margin);
  if (cell.part != Part::broken) {
    complaints.insert(complaints.end(), broken.begin(), broken.end());
  } else if (broken.empty()) {
    complaints.emplace_back("breaks no limit, though its protocol does not tell the truth");
  }
  return complaints;
}

/// Runs the wanted cells; whether all was as it should be.
bool run(const Options& options) {
  fmt::print("Seed {}, {} tests of each cell at each loss, {} of them also from text.\n",
             options.plan.seed, options.plan.tests,
             std::min(options.plan.tests, options.plan.from_text));
  std::optional<Part> part;
  std::string complaints = unknown_cells(options);
  for (const Cell& cell : all_cells()) {
    if (!wanted(options, cell)) continue;
    if (part != cell.part) fmt::print("{}", table_head(cell.part));
    part = cell.part;
    const CellResult result = run_cell(cell, options.plan);
    fmt::print("{}", table_row(cell, result));
    std::fflush(stdout);
    for (const std::string& words : complaints_about(cell, result, options.margin))
      complaints += fmt::format("- {}: {}\n", cell.name(), words);
  }
  fmt::print("\n{}{}",
             complaints.empty() ? "All is as it should be.\n" : "Not as it should be:\n\n",
             complaints);
  return complaints.empty();
}

}  // namespace

int main(int count, char** words) {
  const auto options = read_options(count, words);
  if (!options) {
    fmt::print(stderr, "{}", usage);
    return 2;
  }
  if (options->list) {
    for (const Cell& cell : all_cells())
      fmt::print("{}\n", cell.name());
    return 0;
  }
  try {
    return run(*options) ? 0 : 1;
  } catch (const std::exception& e) {
    fmt::print(stderr, "hailwright_honesty: {}\n", e.what());
    return 1;
  }
}
